/** A pattern is one text: what is wrong in it is told once, however many links are made of it. */
import { expect, it } from 'vitest';
import { judge } from '../support/judge.ts';

it('a mistake in a pattern is one finding, whatever finds it', () => {
  const { findings } = judge(`component MUX {
  loss        port 1531 wavelength 1531 nm max 1.4 dB
}

pattern line {
  fibres      1..4
  connector   LC
  component   MUX port 1551
  segment     <length> OS2 map 1, 2, 3, 3
  connector   LC
}

links "Rows" as line {
  measure     1550 nm
  columns link,   length in m
  L-1               5
  L-2               6
  L-3               7
}

link L-4 {
  as          line length 8 m
}
`);
  const inPattern = findings.filter(({ name }) => /^(?:port-unknown|map-no)/u.test(name));
  expect(inPattern.map(({ name }) => name)).toEqual(['port-unknown', 'map-no-permutation']);
});
