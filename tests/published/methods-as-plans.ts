/** Published rules of reference methods written as plans: one link or cord, read once by one set-up. */
import type { ReferenceMethod } from '../../server/src/model/types.ts';
import { exact, judged, reading } from './judged.ts';

export interface PublishedMethod {
  readonly method: ReferenceMethod;
  /** The far plug goes into the meter. */
  readonly direct?: true;
  /** Kilometres, and decibels of each. */
  readonly fibre: readonly [number, number];
  readonly pair: number;
  /** What a pair that the reference took loses. */
  readonly hidden: number;
  readonly end?: 'connector' | 'plug';
  readonly loss?: number;
}

export interface MethodAnswer {
  /** What the set-up should read where every part loses what it is said to. */
  readonly expected: number;
  readonly limit: number;
  readonly verdict: string;
}

export function byMethod(published: PublishedMethod): MethodAnswer {
  const { method, direct, fibre, pair, hidden, end = 'connector', loss = 0 } = published;
  const receive = '  cord        R1 receive PAIR GLASS reference-grade verified 0 dB\n';
  const between = '  cord        S1 substitution PAIR GLASS reference-grade\n';
  const result = judged(`plan "A published method" {
  limits      RULE
  measure     1310 nm
  directions  A>B
  reference   ${method}
  uncertainty 0 dB repeatable 0 dB
  decision    simple
}

fibre GLASS {
  mode        single-mode core 9 um
  attenuation 1310 nm typ ${fibre[1]} dB/km max ${fibre[1]} dB/km
}

connector PAIR {
  loss        typ ${pair} dB max ${pair} dB
}

limits RULE {
  policy      reference-grade
  fibre       GLASS 1310 nm ${fibre[1]} dB/km
  connector   any ${pair} dB
  connector   any ${pair} dB end
  connector   any ${hidden} dB reference
}

setup TEST {
  reference   ${method}${direct ? ' direct' : ''}
  source      "S1"
  meter       "M1" floor -60 dBm
  cord        L1 launch PAIR GLASS reference-grade
${method === 'three-cord' ? between : ''}${direct ? '' : receive}  taken       2026-01-10 08:00 1310 nm -20 dBm
}

link RULED {
  fibres      1
  ${end.padEnd(11)} PAIR
  segment     ${fibre[0]} km GLASS
  ${end.padEnd(11)} PAIR
}

readings RULED {
  setup       TEST
  tested      2026-01-10 09:00
  values      loss in dB
  columns fibre, 1310 nm A>B
  1  ${loss}
}
`).link('RULED');
  const { limit, verdict } = reading(result, 1, 1310);
  const own = result.wavelengths.find(
    ({ reference, receiveCord }) => reference === method && receiveCord === !direct,
  );
  return {
    expected: Number(exact(own?.expected)),
    limit: Number(exact(limit?.value)),
    verdict,
  };
}

/** Average of a splice as two directions of a trace show it. */
export function averageOfTrace(forward: number, back: number): number {
  const [event] = judged(`plan "A published trace" {
  measure     1310 nm
  reference   one-cord
}

fibre GLASS {
  mode        single-mode core 9 um
}

component END {
  loss        max 0 dB
}

setup TRACE {
  otdr        "T1"
}

link SPAN {
  fibres      1
  component   END
  segment     2 km GLASS
  splice      fusion
  segment     2 km GLASS
  component   END
}

events SPAN {
  setup       TRACE
  tested      2026-01-10 09:00
  values      loss in dB
  columns fibre, at in km, kind, 1310 nm A>B, 1310 nm B>A
  1  2.0  splice  ${forward}  ${back}
}
`).link('SPAN').events;
  return (event?.sum ?? Number.NaN) / 2e6;
}
