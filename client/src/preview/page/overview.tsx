/** Beside a long table: where the rows lie that do not pass; a click goes there. */
import { lookOf } from '../../../../server/src/report/verdicts.ts';
import type { TableOutline } from '../../../../server/src/report/view.ts';

interface OverviewProps {
  readonly places: TableOutline['overview'];
  readonly go: (share: number) => void;
}

export function Overview({ places, go }: OverviewProps) {
  return (
    <button
      type="button"
      class="overview"
      tabIndex={-1}
      aria-hidden="true"
      title="Where rows that do not pass lie"
      onClick={(event) => {
        const { top, height } = event.currentTarget.getBoundingClientRect();
        go((event.clientY - top) / height);
      }}
    >
      <svg viewBox="0 0 10 1000" preserveAspectRatio="none" aria-hidden="true">
        {places.map(([share, verdict]) => (
          <path
            key={share}
            class={`tone-${lookOf(verdict).tone}`}
            d={`M1 ${share * 1000 + 2}H9`}
            vector-effect="non-scaling-stroke"
          />
        ))}
      </svg>
    </button>
  );
}
