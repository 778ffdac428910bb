/** The language server as a program of its own. */
import { serve } from './session/node.ts';

serve();
