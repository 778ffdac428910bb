/** "Now" is read on the site's clock: at the border of a day two sites are on different days. */
import { describe, expect, test } from 'vitest';
import { offsetOf } from '../../server/src/model/api.ts';
import { decodeFile, LiveProject } from '../../server/src/project/index.ts';
import { type Now, nowOf, onSite, parseInstant } from '../../server/src/project/instant.ts';
import { planUri } from '../support/judge.ts';

/** A reading over its limit, accepted until the last day of March. */
function plan(zone: string): string {
  return `plan "Kestrel Quay" {
  limits      KQ-OWNER
  measure     850 nm
  directions  A>B
  reference   one-cord
  uncertainty 0.15 dB
${zone === '' ? '' : `  zone        "${zone}"\n`}}

limits KQ-OWNER {
  policy      counting
  fibre       OM4 850 nm 3.0 dB/km
  connector   any 0.75 dB
}

link KQ-1 {
  fibres      1
  connector   LC
  segment     180 m OM4
  connector   LC
}

setup MM-1 {
  reference   one-cord
  source      "S-3" LED
  meter       "M-5" floor -60 dBm
  launch      encircled-flux
  cord        TC-1 launch LC OM4 reference-grade
  cord        TC-2 receive LC OM4 reference-grade verified 0.08 dB
  taken       2026-03-14 08:10 850 nm -20.05 dBm
}

readings KQ-1 {
  setup       MM-1
  tested      2026-03-14 09:05 to 09:40 by "R. Vale"
  values      loss in dB
  columns fibre, 850 nm A>B
  1  2.60
}

concession KQ-1 {
  accepted    2.61 dB
  because     "rework booked"
  by          "M. Ashdown" on 2026-03-20
  until       2026-03-31
}
`;
}

/** Half an hour before midnight of 31 March 2026, UTC; the machine's own clock is two hours ahead. */
const utc = Date.UTC(2026, 2, 31, 23, 30) / 60_000;
const lateInMarch: Now = { utc, here: utc + 120 };

const file = (text: string) => decodeFile(new TextEncoder().encode(text));

function verdictIn(zone: string): string | undefined {
  const project = new LiveProject({ asOf: lateInMarch });
  project.put(planUri, file(plan(zone)));
  return project.planOf(planUri)?.result.link('KQ-1')?.verdict;
}

describe('a plan is judged as of today at its site', () => {
  test.each([
    ['UTC', 'conceded'],
    ['+00:29', 'conceded'],
    ['+00:30', 'fail'],
    ['+01:00', 'fail'],
    ['-05:00', 'conceded'],
    ['UTC-1', 'conceded'],
    // Without a zone, or with one that says no offset, the machine's own clock.
    ['', 'fail'],
    ['Kestrel time', 'fail'],
  ])('zone "%s": %s', (zone, verdict) => {
    expect(verdictIn(zone)).toBe(verdict);
  });

  test('and is judged again when its zone changes, or the day at its site', () => {
    const project = new LiveProject({ asOf: lateInMarch });
    const verdict = () => project.planOf(planUri)?.result.link('KQ-1')?.verdict;
    project.put(planUri, file(plan('-01:00')));
    expect(verdict()).toBe('conceded');
    project.put(planUri, file(plan('+01:00')));
    expect(verdict()).toBe('fail');
    project.put(planUri, file(plan('-01:00')));
    const before = project.planOf(planUri)?.result.link('KQ-1');
    project.asOf = { utc: utc + 60, here: utc + 180 };
    // Half past midnight in UTC is half past eleven at the site: nothing is judged again.
    expect(project.planOf(planUri)?.result.link('KQ-1')).toBe(before);
    project.asOf = { utc: utc + 91, here: utc + 211 };
    expect(verdict()).toBe('fail');
  });

  test('a time that is told is on the site’s clock, whatever the zone', () => {
    for (const zone of ['+12:00', '-11:00', '']) {
      expect(onSite(parseInstant('2026-03-31 23:30') ?? 0, zone)).toBe(utc);
    }
  });
});

test('a zone is an offset against UTC', () => {
  expect(['UTC', 'Z', '+01:00', '-03:30', '−3', 'UTC+1', '+0545'].map(offsetOf)).toEqual([
    0, 0, 60, -210, -180, 60, 345,
  ]);
  for (const zone of [undefined, '', 'Kestrel time', '+1:75', '+', '1']) {
    expect(offsetOf(zone), zone).toBeUndefined();
  }
});

test('now is one minute on two clocks', () => {
  const date = new Date(Date.UTC(2026, 2, 31, 23, 30, 59));
  const now = nowOf(date);
  expect(now.utc).toBe(utc);
  expect(now.utc - now.here).toBe(date.getTimezoneOffset());
});
