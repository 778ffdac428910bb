/** What stands on a page while there is nothing to show, or what it shows may be old. */
import { useEffect, useState } from 'preact/hooks';

/** Nothing is said of waiting before this, ms. */
const patience = 400;

export function Waiting({ children = 'Judging the plan.' }: { readonly children?: string }) {
  const [patient, setPatient] = useState(true);
  useEffect(() => {
    const waited = setTimeout(() => setPatient(false), patience);
    return () => clearTimeout(waited);
  }, []);
  return patient ? null : (
    <p class="status">
      <span class="working">{children}</span>
    </p>
  );
}

interface StoppedProps {
  readonly at: Date | undefined;
  restart(): void;
  /** What the page shows. */
  readonly what?: string;
}

/** What is shown may be old: since when, why, and the way on. */
export function Stopped({ at, restart, what = 'Results' }: StoppedProps) {
  const time = at?.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
  return (
    <p class="status" role="status">
      {time ? `${what} are from ${time}; the` : 'The'} language server has stopped.{' '}
      <button type="button" class="goto" onClick={restart}>
        Restart
      </button>
    </p>
  );
}
