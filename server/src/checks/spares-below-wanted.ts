import { printMicro } from '../../../grammar/src/quantity/index.ts';
import type { Check } from './check.ts';
import { example, singleModePlan } from './examples.ts';

const plan = (fibres: string) =>
  example(
    singleModePlan.replace('  zone', '  spares      20 %\n  zone'),
    `cable C-101 {
  fibre       OS2
  count       12
  length      800 m
}
`,
    `link KQ-1 {
  connector   LC
  segment     C-101 fibres ${fibres}
  connector   LC
}
`,
  );

export const sparesBelowWanted: Check = {
  name: 'spares-below-wanted',
  kind: 'note',
  severity: 'warning',
  title: 'A cable keeps fewer fibres free than the plan wants',
  explanation:
    'Fibres break, and sites grow. A fibre of a cable is free while no link takes it, or every link that does keeps it as a spare; one that is dead is not. Take a larger cable, leave fibres to another one, or say a smaller share.',
  source: 'Common practice, no source: a share of every cable’s fibres is kept free.',
  bad: plan('1..10'),
  good: plan('1..8'),
  *cable({ cable, settings, needed }) {
    const { spares } = settings;
    if (spares === undefined || cable.count === 0) return;
    const free = Math.max(0, cable.count - needed);
    // In millionths of the count, so that no share is rounded.
    if (free * 1_000_000 >= spares * cable.count) return;
    const wanted = Math.ceil((spares * cable.count) / 1_000_000);
    yield {
      place: cable.namePlace,
      message: `${free} of the ${cable.count} fibres of ${cable.name} ${free === 1 ? 'is' : 'are'} free, and the plan wants ${printMicro(spares * 100)} %, ${wanted} of them. Take a larger cable, or leave fibres to another one.`,
      details: { cable: cable.name, free, wanted, count: cable.count },
    };
  },
};
