import { type Check, noticed } from './check.ts';
import { example, multimodePlan } from './examples.ts';

const path = (trunk: string) => `component CASSETTE {
  joins       MPO-12 to LC
  map         straight
  loss        max 0.75 dB
}

link TRUNK-1 {
  fibres      1..12
  connector   ${trunk}
  segment     60 m OM4
  connector   ${trunk}
}

channel ROW-C {
  cord        2 m OM4 straight
  component   CASSETTE turned
  link        TRUNK-1
  component   CASSETTE
  cord        2 m OM4 straight
}
`;

export const connectorsDoNotFit: Check = {
  name: 'connectors-do-not-fit',
  kind: 'contradiction',
  severity: 'error',
  title: 'Two kinds of connector meet that do not go together',
  explanation:
    'Where a link ends and another, a plug, a part or a cord that names its plugs follows with no fibre between, the two mate in one adapter: they have the same housing, hold the same number of fibres, and both end faces are angled or neither is. ' +
    'A part’s second kind looks outward where a path begins, its first kind to what stands before it elsewhere; turned turns it round. Often that is what is wrong. A cord without plugs is held against nothing.',
  source:
    'Common practice, no source; an angled plug on a straight one: IEC 61755 families, from memory.',
  bad: example(multimodePlan, path('LC')),
  good: example(multimodePlan, path('MPO-12')),
  link: noticed(
    'connectors-do-not-fit',
    (details) =>
      `${details.text('before')} meets ${details.text('after')} here, and ${details.text('why')}. ` +
      'Write the kind that is there, or turn the part round.',
  ),
};
