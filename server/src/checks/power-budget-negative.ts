import { addDb, zeroDb } from '../../../grammar/src/quantity/index.ts';
import type { Check, Found, LinkContext } from './check.ts';
import { example, farTransceiver, longLink, singleModePlan } from './examples.ts';
import { inDb, microInDbm } from './figures.ts';
import {
  failing,
  heaviestInWords,
  leftInDbm,
  lightInWords,
  windowDetails,
} from './light-windows.ts';

function* find({ result }: LinkContext): Iterable<Found> {
  for (const [worst, ...others] of failing(result, ({ margin }) => margin)) {
    const { power } = worst;
    const { margin, amplitude } = power;
    if (!power.launch || !power.input || margin === undefined) continue;
    const modulated = amplitude?.margin === margin ? amplitude : undefined;
    const launch = modulated?.launch ?? power.launch.min;
    const input = modulated?.input ?? power.input.min;
    const what = modulated ? ' of modulation amplitude' : '';
    const taken = addDb(zeroDb, ...power.terms.map(({ total }) => total));
    yield {
      place: power.place,
      message:
        `${lightInWords(worst, others)}: ${microInDbm(launch)}${what} sent at least leaves ${leftInDbm(launch, taken)} by design, ` +
        `${inDb(-margin as typeof margin)} under the ${microInDbm(input)} that ${power.to} needs. Heaviest: ${heaviestInWords(power.terms)}. ` +
        `Look for a shorter path, fewer joints, or transceivers with a wider window.`,
      details: windowDetails(worst),
    };
  }
}

export const powerBudgetNegative: Check = {
  name: 'power-budget-negative',
  kind: 'note',
  severity: 'error',
  title: 'Too little power reaches the receiver',
  explanation:
    'The least power that the transceiver sends, less the greatest loss of all between the two, less the penalty of its light and what is held in reserve for repairs and ageing, must not fall below the least that the receiver takes, as an average and, where both ends state it, as modulation amplitude. All of it is by design: a good reading of today does not hold the reserve of tomorrow. Reserves belong here and never to a limit of acceptance.',
  source:
    'Worst-case power budget: ITU-T G.957 clause 8, G.Sup39 clause 9; equipment makers print it alike.',
  bad: example(singleModePlan, farTransceiver, longLink.replace('30 km', '70 km')),
  good: example(singleModePlan, farTransceiver, longLink),
  link: find,
};
