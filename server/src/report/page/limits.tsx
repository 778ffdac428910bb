/** The last line of an opened link: every limit with its sum, and what should be lost. */
import type { LimitsRow, LimitView } from '../view.ts';

export function LimitsCells({ row }: { readonly row: LimitsRow }) {
  return (
    <span class="limits-lines">
      {row.wavelengths.map(({ wavelength, method, limits, expected }) => {
        const governing = limits.filter(({ governs }) => governs);
        const others = limits.filter(({ governs }) => !governs);
        return (
          <span class="limits-of" key={`${wavelength}${method}`}>
            <span class="limits-line">
              <b>{wavelength}</b> {method ? `${method} ` : ''}
              {governing.map((limit) => (
                <Governing key={limit.name} limit={limit} />
              ))}
              {governing.length === 0 ? 'no limit, so nothing is judged here' : ''}
            </span>
            <span class="limits-line quiet">
              {expected ? `expected ${expected}` : 'expected loss not known of all parts'}
              {others.map((limit) => (
                <span key={`${limit.kind}${limit.name}`} title={working(limit)}>
                  {' · '}
                  {limit.kind} {limit.because ? `none: ${limit.because}` : limit.figure}
                  {limit.kind === 'application' || (limit.beside && !limit.sufficient)
                    ? ` (${limit.name})`
                    : ''}
                  {asideOf(limit)}
                </span>
              ))}
            </span>
          </span>
        );
      })}
    </span>
  );
}

function Governing({ limit }: { readonly limit: LimitView }) {
  return (
    <span title={working(limit)}>
      <span class="governs">
        {limit.kind} {limit.figure}
      </span>
      {limit.terms.length > 1 ? ` = ${sumOf(limit)}` : ` (${limit.name})`}
      {limit.recalled ? <span class="quiet"> · rests on a recalled figure</span> : null}
    </span>
  );
}

function asideOf({ beside, sufficient }: LimitView): string {
  if (sufficient) return ', up to which a reading passes';
  return beside ? ', only compared' : '';
}

/** `fibre OM4 0.54 + 2 end pairs 1.50 + splice 0.30`. */
function sumOf({ terms }: LimitView): string {
  return terms.map(({ sign, what, total }) => `${sign} ${what} ${total}`.trim()).join(' ');
}

/** Each term with its count, figure and source, a line each. */
function working({ name, terms }: LimitView): string {
  return [
    name,
    ...terms.map(({ what, working, source }) => `${what}: ${working} (${source})`),
  ].join('\n');
}
