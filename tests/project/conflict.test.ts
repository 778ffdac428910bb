/** A merge conflict is one finding, however many declarations lie in its sides, and its first side is read. */
import { describe, expect, it } from 'vitest';
import { decodeFile, type Plan } from '../../server/src/project/index.ts';
import { findingsOf, judge, planUri } from '../support/judge.ts';

const head = `plan "Kestrel Quay" {
  limits      TIA-568.3-E
  measure     850 nm for multimode
  directions  A>B
  reference   one-cord
}
`;
const link = (name: string, metres: number) => `
link ${name} {
  fibres      1..2
  connector   LC
  segment     ${metres} m OM4
  connector   LC
}
`;
const two = (metres: number) => `${link('KQ-1', metres)}${link('KQ-2', metres)}`;

function read(text: string) {
  const { findings, plan } = judge(text);
  return { ...saidOf(plan), names: findings.map(({ name }) => name) };
}

describe('a merge conflict over two declarations', () => {
  it.each([
    ['with two sides', `<<<<<<< ours${two(80)}=======${two(90)}>>>>>>> theirs\n`],
    [
      'with what both come from',
      `<<<<<<< ours${two(80)}||||||| base${two(70)}=======${two(90)}>>>>>>> theirs\n`,
    ],
    ['of which one side is empty', `<<<<<<< ours${two(80)}=======\n>>>>>>> theirs\n`],
  ])('%s is one finding', (_what, text) => {
    const { names, lengths } = read(`${head}\n${text}${link('KQ-3', 30)}`);
    expect(names).toEqual(['merge-conflict']);
    expect(lengths).toEqual([80, 80, 30]);
  });

  it('that nothing closes is one finding, and what stands below goes on', () => {
    const { names, lengths } = read(
      `${head}\n<<<<<<< ours${link('KQ-1', 80)}=======${link('KQ-2', 90)}${link('KQ-3', 30)}`,
    );
    expect(names).toEqual(['merge-conflict']);
    expect(lengths).toEqual([80, 90, 30]);
  });

  it('is told for each of two', () => {
    const one = (name: string) =>
      `<<<<<<< ours${link(name, 80)}=======${link(name, 90)}>>>>>>> theirs\n`;
    expect(read(`${head}\n${one('KQ-1')}${one('KQ-2')}`)).toMatchObject({
      names: ['merge-conflict', 'merge-conflict'],
      lengths: [80, 80],
    });
  });

  it('says as much when its markers come and go one by one', () => {
    const end = '>>>>>>> theirs\n';
    const open = `${head}\n<<<<<<< ours${two(80)}=======${link('KQ-1', 90)}${link('KQ-3', 90)}`;
    const { project } = judge(open);
    for (const text of [`${open}${end}`, open.replace('<<<<<<< ours', ''), `${open}${end}`, head]) {
      project.put(planUri, decodeFile(new TextEncoder().encode(text)));
      expect(saidOf(project.planOf(planUri)!)).toEqual(saidOf(judge(text).plan));
    }
  });
});

function saidOf(plan: Plan) {
  return {
    names: findingsOf(plan).map(({ name, message }) => `${name}: ${message}`),
    lengths: plan.result.order.map((name) => (plan.result.link(name)?.length ?? 0) / 1e6),
  };
}
