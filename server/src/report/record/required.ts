/**
 * What a record needs before it can be issued: the fields that contracts for
 * tests of fibres ask for in common (public specifications of owners), every
 * reading accepted, every doubt answered, every figure from memory adopted.
 */
import { blocksAcceptance, type Finding } from '../../checks/finding.ts';
import type { LinkResult, ReadingResult, Verdict } from '../../evaluate/result.ts';
import type { LinkModel, Setup } from '../../model/types.ts';
import { elementsIn } from '../../model/ways.ts';
import { counted, listed, wavelength } from '../figures.ts';
import type { Documented } from '../paper/plan.ts';
import { lookOf } from '../verdicts.ts';

export interface Missing {
  /** `the plan`, the name of a link or a set-up. */
  readonly of: string;
  /** What is missing and what to do. */
  readonly what: string;
}

export function missingIn(subject: Documented): readonly Missing[] {
  const { plan } = subject;
  const results = plan.result.order.flatMap((name) => plan.result.link(name) ?? []);
  const missing = [
    ...ofPlan(subject),
    ...results.flatMap((result) => [...ofLink(result), ...ofReadings(result)]),
    ...ofSetups(subject, results),
    ...ofFigures(subject, results),
    ...ofFindings(subject),
  ];
  if (missing.length === 0 && !plan.result.totals.accepted) {
    return [{ of: 'the plan', what: 'not everything in it is accepted; the results say what' }];
  }
  return missing;
}

function ofPlan({ plan }: Documented): readonly Missing[] {
  const { title, site, revision } = plan.settings;
  const of = 'the plan';
  return [
    ...(plan.result.order.length === 0 ? [{ of, what: 'there is no link in it' }] : []),
    ...(title ? [] : [{ of, what: 'no title: begin it with plan "…"' }]),
    ...(site ? [] : [{ of, what: 'no site: write site "…" in it' }]),
    ...(revision ? [] : [{ of, what: 'no revision: write revision "…" on a date in it' }]),
  ];
}

const acceptedVerdicts: ReadonlySet<Verdict> = new Set(['pass', 'marginal-pass', 'conceded']);

function ofLink(result: LinkResult): readonly Missing[] {
  const { link, counts } = result;
  const of = link.name;
  const missing: Missing[] = [];
  if (!endsArePlugs(link) && link.kind !== 'ring' && link.kind !== 'section') {
    const sides = [
      link.from.length === 0 ? 'A (from)' : '',
      link.to.length === 0 && link.ways.length === 0 ? 'B (to)' : '',
    ].filter(Boolean);
    if (sides.length > 0 && link.kind === 'link') {
      missing.push({ of, what: `no ports at end ${listed(sides)}: name where it begins and ends` });
    }
  }
  if (lacksLength(link)) {
    missing.push({ of, what: 'no length: a part of its path says none' });
  }
  if (!result.accepted) {
    const open = (Object.entries(counts) as [Verdict, number][])
      .filter(([verdict, count]) => count > 0 && !acceptedVerdicts.has(verdict))
      .map(([verdict, count]) => `${counted(count, 'reading')} ${lookOf(verdict).word}`);
    if (open.length > 0) missing.push({ of, what: open.join(', ') });
  }
  return missing;
}

/** A length that is written as unknown is said; one that is left out is not. */
function lacksLength(link: LinkModel): boolean {
  return [...elementsIn(link)].some(
    (element) =>
      (element.kind === 'segment' || element.kind === 'cord') && element.length === undefined,
  );
}

function endsArePlugs({ path }: LinkModel): boolean {
  return path[0]?.kind === 'plug' && path.at(-1)?.kind === 'plug';
}

/** Each reading that stands says who made it. */
function ofReadings({ link, readings }: LinkResult): readonly Missing[] {
  const unnamed = standing(readings).filter(({ reading }) => !reading?.by);
  if (unnamed.length === 0) return [];
  const days = [...new Set(unnamed.map(({ reading }) => reading!.at.text))];
  const more = days.length > 3 ? `, and ${days.length - 3} more times` : '';
  return [
    {
      of: link.name,
      what: `${counted(unnamed.length, 'reading')} of ${listed(days.slice(0, 3))}${more} without the tester's name`,
    },
  ];
}

function standing(readings: readonly ReadingResult[]): readonly ReadingResult[] {
  return readings.filter(({ current, reading }) => current && reading !== undefined);
}

/** Set-ups of readings that stand say with what, set how, proven how. */
function ofSetups(subject: Documented, results: readonly LinkResult[]): readonly Missing[] {
  const used = new Map<string, Use>();
  for (const { link, readings } of results) {
    for (const { setup, wavelength: at, loss, reading } of standing(readings)) {
      if (!setup) continue;
      const known = used.get(setup) ?? { waves: new Set<number>(), multimode: false };
      // Power that arrives from the equipment itself needs no reference of ours.
      if (loss !== undefined || reading?.quantity === 'loss') known.waves.add(at);
      known.multimode ||= link.mode === 'multimode';
      used.set(setup, known);
    }
  }
  return [...used].flatMap(([name, use]) => {
    const setup = subject.plan.setup(name);
    if (!setup) return [];
    return lacking(setup, use).map((what) => ({ of: `set-up ${name}`, what }));
  });
}

/** What readings a set-up stands behind. */
interface Use {
  /** Of its losses. */
  readonly waves: Set<number>;
  multimode: boolean;
}

function lacking(setup: Setup, { waves, multimode }: Use): readonly string[] {
  const { source, meter, launch, cords, events, reference, direct } = setup;
  const lacks: string[] = [];
  const dated = (what: string, instrument: Setup['source']) => {
    if (!instrument) lacks.push(`no ${what}: name the instrument`);
    else if (!instrument.calibrated || !instrument.due) {
      lacks.push(`no calibration of the ${what}, when made and when due`);
    }
  };
  if (setup.otdr) {
    if (source ?? meter) dated('reflectometer', source ?? meter);
    return lacks;
  }
  dated('meter', meter);
  if (waves.size === 0) return lacks;
  if (!reference) lacks.push('no reference: say how many cords it holds');
  dated('source', source);
  if (source && !source.light) lacks.push('the source does not say LED or laser');
  if (multimode && !launch) lacks.push('no launch condition');
  if (reference !== 'equipment-cord' && !cords.some(({ role }) => role === 'launch'))
    lacks.push('no launch cord');
  if (reference === 'one-cord' && !direct) {
    const receive = cords.filter(({ role }) => role === 'receive');
    if (receive.length === 0) lacks.push('no receive cord');
    const proven = new Set(events.flatMap((each) => (each.kind === 'verified' ? [each.cord] : [])));
    const unproven = receive.filter(
      ({ name, verified }) => verified === undefined && !proven.has(name),
    );
    if (unproven.length > 0) {
      lacks.push(
        `what ${listed(unproven.map(({ name }) => name))} lost when it was proven is not said`,
      );
    }
  }
  const taken = new Set<number>(
    events.flatMap((event) => (event.kind === 'taken' ? [event.wavelength] : [])),
  );
  const without = [...waves].filter((each) => !taken.has(each)).sort((a, b) => a - b);
  if (without.length > 0) {
    lacks.push(
      `no reference power at ${listed(without.map((each) => wavelength(each as Parameters<typeof wavelength>[0])))}`,
    );
  }
  return lacks;
}

/** A figure from memory governs only where somebody answers for it by name. */
function ofFigures(subject: Documented, results: readonly LinkResult[]): readonly Missing[] {
  const adopted = new Set(subject.plan.settings.adopt.map(({ name }) => name));
  const open = new Map<string, Set<string>>();
  for (const { fibres } of results) {
    for (const { limit } of fibres.flatMap(({ current }) => current)) {
      if (!limit?.recalled) continue;
      const [name = limit.name] = limit.name.split(',');
      const sources = limit.terms
        .filter(({ trust }) => trust === 'recalled')
        .map(({ source }) => source)
        .filter((source) => ![...adopted].some((each) => source.startsWith(`${each},`)));
      if (
        adopted.has(name) ||
        adopted.has(limit.name) ||
        (limit.terms.length > 0 && sources.length === 0)
      ) {
        continue;
      }
      const known = open.get(name) ?? new Set<string>();
      for (const source of sources) known.add(source);
      open.set(name, known);
    }
  }
  return [...open].map(([name, sources]) => ({
    of: 'the plan',
    what: `the limit of ${name} rests on figures from memory${sources.size > 0 ? ` (${listed([...sources].slice(0, 3))})` : ''} that nobody answers for: write adopt ${name} by "…" on a date`,
  }));
}

/** Contradictions and doubts that nobody has answered; equal ones of one thing once. */
function ofFindings({ plan }: Documented): readonly Missing[] {
  const groups = new Map<string, Finding[]>();
  for (const findings of plan.allFindings().values()) {
    for (const finding of findings.filter(blocksAcceptance)) {
      const key = `${finding.about ?? ''}\0${finding.name}`;
      groups.set(key, [...(groups.get(key) ?? []), finding]);
    }
  }
  return [...groups.values()].map((group) => {
    const [{ name, about, message }] = group as [Finding, ...Finding[]];
    const more =
      group.length > 1 ? ` And ${counted(group.length - 1, 'more like it', 'more like it')}.` : '';
    return { of: about ?? 'the plan', what: `${name} is not answered: ${message}${more}` };
  });
}
