/** What a path does to the signal as plain data, for the JSON form. */
import { toMetres, toNanometres } from '../../../grammar/src/quantity/index.ts';
import type { LinkResult, SignalResult } from '../evaluate/result.ts';
import type { SignalJson } from './schema.ts';

/** Of the object itself first, then of what it carries; of an object with ways, way by way. */
export function signalJson({ signal, ways }: LinkResult): SignalJson[] {
  return [
    ...signal.map((one) => oneJson(one, null)),
    ...ways.flatMap((way) => way.signal.map((one) => oneJson(one, way.name))),
  ];
}

function oneJson(one: SignalResult, way: string | null): SignalJson {
  const scaled = (value: number | undefined, unit: number) =>
    value === undefined ? null : value / unit;
  return {
    application: one.application ?? null,
    way,
    wavelength_nm: toNanometres(one.wavelength),
    direction: one.direction ?? null,
    length_m: one.length === undefined ? null : toMetres(one.length),
    delay_ns: scaled(one.delay, 1e6),
    skew_ns: scaled(one.skew, 1e6),
    bandwidth: one.bandwidth.map(({ launch, value, trust }) => ({
      launch,
      mhz: value / 1e3,
      trust: trust ?? null,
    })),
    dispersion_ps_nm: scaled(one.dispersion, 1e6),
    pmd_ps: scaled(one.pmd, 1e6),
    trust: {
      delay: one.trust.delay ?? null,
      dispersion: one.trust.dispersion ?? null,
      pmd: one.trust.pmd ?? null,
    },
    unknown: [...one.unknown],
  };
}
