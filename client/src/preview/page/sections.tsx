/** Words that lead to the parts of the page; they are anchors in one page and hide nothing. */

import { useEffect, useState } from 'preact/hooks';
import { count } from '../../../../server/src/report/figures.ts';
import type { Head } from '../../../../server/src/report/view.ts';

interface SectionsProps {
  readonly head: Head;
  readonly findings: number;
  readonly drawn: boolean;
  readonly empty: boolean;
}

export function Sections({ head, findings, drawn, empty }: SectionsProps) {
  const current = useSection();
  const { toMake } = head.sums;
  const words: readonly (readonly [string, string, string])[] = [
    ['results', 'Results', toMake > 0 ? `${count(toMake)} to make` : ''],
    ...(drawn ? [['link', 'Link', ''] as [string, string, string]] : []),
    ...(empty
      ? []
      : ([
          ['charts', 'Charts', ''],
          ['coverage', 'Coverage', ''],
        ] as const)),
    ['findings', 'Findings', findings > 0 ? count(findings) : ''],
  ];
  return (
    <nav class="words sections" aria-label="Sections">
      {words.map(([id, word, number]) => (
        <a
          key={id}
          class={`word-choice${id === current ? ' current' : ''}`}
          aria-current={id === current ? 'location' : undefined}
          href={`#${id}`}
          onClick={(event) => {
            // An address that changes would be the webview's own, so the page scrolls itself.
            event.preventDefault();
            document.getElementById(id)?.scrollIntoView();
          }}
        >
          {word} <span class="quiet">{number}</span>
        </a>
      ))}
    </nav>
  );
}

/** The section that fills the upper part of the window. */
function useSection(): string {
  const [current, setCurrent] = useState('results');
  useEffect(() => {
    const look = () => {
      const under = window.innerHeight / 3;
      const reached = [...document.querySelectorAll('section[id]')].filter(
        (section) => section.getBoundingClientRect().top <= under,
      );
      setCurrent(window.scrollY === 0 ? 'results' : (reached.at(-1)?.id ?? 'results'));
    };
    window.addEventListener('scroll', look, { passive: true });
    return () => window.removeEventListener('scroll', look);
  }, []);
  return current;
}
