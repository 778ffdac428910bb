/** The protocol tests run what is shipped: the bundled server. */
import { bundle } from '../../../client/build/bundle.ts';

export default bundle;
