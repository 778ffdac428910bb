/** The protocol tests run what is shipped: the bundled server. */
export { default } from '../../support/bundled.ts';
