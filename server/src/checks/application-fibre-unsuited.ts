import { type Check, noticed } from './check.ts';
import { example, multimodePlan, singleModeLink, singleModePlan } from './examples.ts';

const link = singleModeLink.replace('}', '  carries     10GBASE-LR\n}');

export const applicationFibreUnsuited: Check = {
  name: 'application-fibre-unsuited',
  kind: 'note',
  severity: 'error',
  title: 'The application has no row for this fibre',
  explanation:
    'An application is stated for kinds of fibre, each with its reach and loss. Of a path whose fibre is none of them, and meets none of them, nothing is known: light of a single-mode transceiver does not run on multimode fibre as if it were single-mode, nor the other way round. Write the fibre that is there, an application made for it, or with meets what the fibre also fulfils.',
  source:
    'Media of each physical layer: IEEE 802.3 clauses of each application, as the library cites them.',
  bad: example(
    multimodePlan.replace('850 nm, 1300 nm for multimode', '1300 nm'),
    link.replace('OS2', 'OM4'),
  ),
  good: example(singleModePlan, link),
  link: noticed(
    'application-fibre-unsuited',
    (d) => `${d.text('because')}. Look at the fibre, or at an application that is made for it.`,
  ),
};
