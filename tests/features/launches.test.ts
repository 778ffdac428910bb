/** What a launch asks for, and what a colour tells, under the pointer. */
import { expect, test } from 'vitest';
import { hover } from '../../server/src/features/hover.ts';
import { answer, ask } from '../support/ask.ts';

const said = (text: string) => {
  const contents = answer(hover, ask(text))?.contents;
  return contents && typeof contents === 'object' && 'value' in contents ? contents.value : '';
};

const setup = (launch: string, cord = 'OM4 ordinary diameter 3.0 mm') => `setup MM-1 {
  launch      ${launch}
  cord        TC-1 launch LC ${cord}
}
`;

test('encircled flux shows its bounds for the fibre of the launch cord, and that they are from memory', () => {
  const text = said(setup('encircled$0-flux'));
  expect(text).toContain('**Encircled flux into OM4**, by FLUX-50-UNCONFIRMED');
  expect(text).toContain('| 850 nm | 10 µm | 27.85 % | 33.5 % | 39.15 % | from memory |');
  expect(said(setup('encircled$0-flux', 'OM1 ordinary'))).toContain('| 1300 nm | 28 µm | 97.08 %');
});

test('a mandrel shows the size that the launch cord asks for', () => {
  expect(said(setup('man$0drel 22 mm'))).toContain(
    '**Mandrel for OM4**, by MANDREL-50 (TIA/EIA-568-B.1, TIA/EIA-526-14-A): 22 mm for a cord of 3 mm, 5 turns.',
  );
  expect(said(setup('man$0drel 22 mm', 'OM1 ordinary'))).toContain(
    '20 mm for a cord of 0.9 mm; 18 mm for a cord of 2 mm; 18 mm for a cord of 2.4 mm; 17 mm',
  );
  expect(said(setup('man$0drel 22 mm', 'OM4 ordinary diameter 1.6 mm'))).toContain(
    'no size for a cord of 1.6 mm, 5 turns',
  );
});

test('a launch that asks for nothing, and the word itself, show the help of the word', () => {
  expect(said(setup('over$0-filled'))).toBe('');
  expect(said(setup('encircled-flux').replace('launch ', 'lau$0nch '))).toContain(
    'How the launch fills the fibre',
  );
});

test('a jacket tells which fibres its colour stands for, and a cable says its own', () => {
  const cable = (name: string, jacket: string) => `cable ${name} {
  fibre       OM4
  count       12
  length      100 m
  colours     TIA-598
  jacket      ${jacket}
}
`;
  const text = said(cable('C-1', 'aq$0ua'));
  expect(text).toContain(
    '**aqua**: fibre 12 and tube 12 in TIA-598; jacket of OM3, OM4, connector body of OM3, OM4 by TIA-598',
  );
  expect(said(cable('C$0-1', 'aqua'))).toContain('jacket aqua');
  expect(said(cable('C-1', 'gre$0en'))).toContain('connector body of OS1 APC, OS1a APC, OS2 APC');
});
