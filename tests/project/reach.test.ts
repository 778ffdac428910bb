/** How far a block of text reaches: what is made of it, measured with it, told by it, or foretold from one of these. */
import { describe, expect, it } from 'vitest';
import { judge } from '../support/judge.ts';

const text = `plan "Kestrel Quay" {
  client      "Harbour board"
  limits      TIA-568.3-E
  measure     850 nm for multimode
  reference   one-cord
}

setup MM-1 {
  reference   one-cord
}

cable C-101 {
  fibre       OM4
  count       24
  length      142 m
}

pattern berth {
  fibres      1..2
  connector   LC
  segment     <length> OM4
  connector   LC
}

links "Berths" as berth {
  columns link,  length in m
  KQ-1           120
  KQ-2           140
}

link KQ-3 {
  fibres      1..2
  connector   LC
  segment     C-101 fibres 1..2
  connector   LC
}

channel CH-1 {
  cord        3 m OM4 straight
  link        KQ-3 fibres 1..2
  cord        2 m OM4 straight
}

readings KQ-2 {
  setup       MM-1
  tested      2026-03-14 09:05 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1  0.81
}

connector KQ-SC {
  like        SC
}
`;

const { plan, project } = judge(text);
const blocks = project.document('file:///site/plan.lwl')!.blocks();

function reach(head: string, only?: string) {
  const block = blocks.find((each) => each.text.includes(head));
  if (!block) throw new Error(`no block ${head}`);
  return plan.reach(block.id, only);
}

describe('the reach of a block', () => {
  it('goes to what is made of it, and on to what is foretold from that', () => {
    expect(reach('cable C-101')).toEqual(['KQ-3', 'CH-1']);
    expect(reach('pattern berth')).toEqual(['KQ-1', 'KQ-2']);
    expect(reach('link KQ-3')).toEqual(['KQ-3', 'CH-1']);
    expect(reach('channel CH-1')).toEqual(['CH-1']);
  });

  it('goes to what is measured with it or told by it', () => {
    expect(reach('setup MM-1')).toEqual(['KQ-2']);
    expect(reach('readings KQ-2')).toEqual(['KQ-2']);
  });

  it('goes nowhere where nothing uses it', () => {
    expect(reach('connector KQ-SC')).toEqual([]);
  });

  it('is that of one name of it where one is asked for', () => {
    expect(reach('links "Berths"')).toEqual(['KQ-1', 'KQ-2']);
    expect(reach('links "Berths"', 'KQ-2')).toEqual(['KQ-2']);
    expect(reach('plan "Kestrel', 'client')).toEqual([]);
    expect(reach('plan "Kestrel', 'limits')).toEqual(['KQ-1', 'KQ-2', 'KQ-3', 'CH-1']);
    expect(reach('plan "Kestrel', 'no such field')).toEqual([]);
  });

  it('is in order of the text, however few of many it reaches', () => {
    const links = Array.from(
      { length: 60 },
      (_, index) =>
        `link L-${60 - index} {\n  fibres      1\n  connector   LC\n  segment     ${
          index % 20 === 7 ? 'C-1 fibres 1' : '90 m OM4'
        }\n  connector   LC\n}\n`,
    );
    const many = judge(
      `plan "Many" {\n  limits TIA-568.3-E\n}\n\ncable C-1 {\n  fibre       OM4\n  count       4\n  length      90 m\n}\n\n${links.join('\n')}`,
    );
    const cable = many.project
      .document('file:///site/plan.lwl')!
      .blocks()
      .find((each) => each.text.includes('cable C-1'))!;
    expect(many.plan.reach(cable.id)).toEqual(['L-53', 'L-33', 'L-13']);
  });
});
