/** The last line of an opened link: every limit with its sum, and what should be lost. */
import type { LimitsRow, LimitView } from '../view.ts';

export function LimitsCells({ row }: { readonly row: LimitsRow }) {
  return (
    <span class="limits-lines">
      {row.wavelengths.map(({ wavelength, method, limits, ...design }) => {
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
              {designInWords(design)}
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
      {row.supports.map(({ name, support, row: held, because, recalled, power }) => (
        <span class="limits-of" key={`${name}${held}`}>
          <span class="limits-line">
            <b class="mono">{name}</b>{' '}
            <span class={support === 'not supported' ? 'text-fail' : ''}>{support}</span>
            <span class="quiet">
              {held ? ` · ${held}` : ''}
              {recalled ? ', recalled' : ''} · {because}
            </span>
          </span>
          <span class="limits-line quiet">{power}</span>
        </span>
      ))}
    </span>
  );
}

type Design = Pick<LimitsRow['wavelengths'][number], 'expected' | 'statistical' | 'greatest'>;

/** `expected 1.05 · mean + 3 sigma 1.32 · greatest 1.95`. */
function designInWords({ expected, statistical, greatest }: Design): string {
  return [
    expected ? `expected ${expected}` : 'expected loss not known of all parts',
    statistical ? `mean + 3 sigma ${statistical}` : '',
    greatest ? `greatest ${greatest}` : '',
  ]
    .filter(Boolean)
    .join(' · ');
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
