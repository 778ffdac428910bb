/**
 * The set-up to make for a link: which cords, how the reference is taken, what
 * to prove before the first fibre. The order of steps is common practice, no
 * source; how many cords a reference holds is what IEC 61280-4-1 and -4-2 name
 * their methods by.
 */
import { microToNumber } from '../../../../grammar/src/quantity/index.ts';
import type { LinkResult } from '../../evaluate/result.ts';
import type { LinkModel, Mode, PathElement, ReferenceMethod, Setup } from '../../model/types.ts';
import { wavelength } from '../figures.ts';
import { launchInWords } from '../launch.ts';
import type { Documented } from '../paper/plan.ts';
import { layOut } from '../path.ts';

export interface Arrangement {
  /** Equal for links that are tested with the same set-up. */
  readonly key: string;
  readonly method: ReferenceMethod | undefined;
  readonly mode: Mode | undefined;
  readonly wavelengths: readonly string[];
  /** Connector and fibre at each end. */
  readonly ends: readonly [End, End];
  /** Set-ups of the plan that fit it, those last used for the link first. */
  readonly declared: readonly Setup[];
}

export interface End {
  readonly connector: string;
  readonly fibre: string;
  /** Whether a plug stands there to be plugged in, in place of a socket in a panel. */
  readonly plug: boolean;
}

export function arrangementFor(subject: Documented, result: LinkResult): Arrangement {
  const { link } = result;
  const used = usedFor(subject, result);
  const method = link.terms.reference ?? used[0]?.reference;
  const ends = endsOf(link);
  const wavelengths = [
    ...new Set(result.fibres.flatMap(({ current }) => current.map((each) => each.wavelength))),
  ].sort((a, b) => a - b);
  const declared = [
    ...used,
    ...subject.plan
      .named('setup')
      .flatMap(({ name }) => subject.plan.setup(name) ?? [])
      .filter((setup) => !used.includes(setup)),
  ].filter((setup) => fits(setup, method, ends, wavelengths));
  const waves = wavelengths.map(wavelength);
  return {
    key: JSON.stringify([method, link.mode, waves, ends, declared.map(({ name }) => name).sort()]),
    method,
    mode: link.mode,
    wavelengths: waves,
    ends,
    declared,
  };
}

/** Set-ups of the readings that stand, the newest first. */
function usedFor({ plan }: Documented, { readings }: LinkResult): readonly Setup[] {
  const names = readings
    .filter(({ current, setup }) => current && setup)
    .toSorted((a, b) => (b.reading?.at.from ?? 0) - (a.reading?.at.from ?? 0))
    .map(({ setup }) => setup!);
  return [...new Set(names)].flatMap((name) => plan.setup(name) ?? []);
}

function fits(
  setup: Setup,
  method: ReferenceMethod | undefined,
  ends: readonly End[],
  wavelengths: readonly number[],
): boolean {
  if (setup.otdr || setup.reference !== method) return false;
  const sent = setup.source?.wavelengths ?? [];
  if (sent.length > 0 && !wavelengths.every((each) => sent.some((own) => own === each)))
    return false;
  const taken = new Set(
    setup.events.flatMap((event) => (event.kind === 'taken' ? [event.wavelength] : [])),
  );
  if (taken.size > 0 && !wavelengths.every((each) => [...taken].some((own) => own === each))) {
    return false;
  }
  const cords = setup.cords.filter(({ role }) => role !== 'tail');
  return ends.every(
    ({ connector, fibre }) =>
      connector === '' ||
      cords.some(
        (cord) =>
          cord.connector === connector &&
          (fibre === '' || cord.fibre === fibre || cord.fibreType?.meets.includes(fibre)),
      ),
  );
}

/** What a test cord meets at each end: the first and last joint, and the fibre behind it. */
export function endsOf(link: LinkModel): readonly [End, End] {
  const [way] = link.ways.filter(({ kind }) => kind === 'branch');
  const elements = way ? way.path : layOut(link).elements.map(({ element }) => element);
  return [endOf(elements), endOf(elements.toReversed())];
}

function endOf(elements: readonly PathElement[]): End {
  const joint = elements.find(({ kind }) => kind === 'connector' || kind === 'plug');
  const fibre = elements.find(
    (element): element is Extract<PathElement, { kind: 'segment' | 'cord' }> =>
      element.kind === 'segment' || element.kind === 'cord',
  );
  return {
    connector: joint && 'name' in joint ? joint.name : '',
    fibre: fibre?.fibreName ?? '',
    plug: elements[0]?.kind === 'plug',
  };
}

/** `launch cord, LC, OM4, reference grade`; for each end where they differ. */
export function cordsOf({ ends, method }: Arrangement): readonly string[] {
  const [a, b] = ends;
  const kind = ({ connector, fibre }: End) =>
    [connector && `plugs ${connector}`, fibre && `fibre ${fibre}`].filter(Boolean).join(', ') ||
    'plugs and fibre as the link has them';
  // Each direction has its launch at one end and its receive cord at the other.
  const cord = (role: string) =>
    kind(a) === kind(b)
      ? [`${role} cord: ${kind(a)}`]
      : [`${role} cord for end A: ${kind(a)}`, `${role} cord for end B: ${kind(b)}`];
  const launch = cord('Launch');
  const receive = cord('Receive');
  switch (method) {
    case 'two-cord':
      return [...launch, ...receive, 'An adapter to join both while the reference is taken'];
    case 'three-cord':
      return [
        ...launch,
        `Middle cord, in the reference only: ${kind(a)}`,
        ...receive,
        'Two adapters to join the three while the reference is taken',
      ];
    case 'equipment-cord':
      return [
        'The cords of the equipment themselves, both ends, labelled so that they go back to their places',
      ];
    default:
      return [
        ...launch,
        ...(b.plug ? [] : [...receive, 'An adapter to prove the cords against each other']),
      ];
  }
}

/** Steps from the switched-on source to the first fibre. */
export function stepsOf(arrangement: Arrangement): readonly string[] {
  const { method, mode, wavelengths, ends } = arrangement;
  const each = wavelengths.length > 1 ? ` at each wavelength (${wavelengths.join(', ')})` : '';
  const note = `Write down power, day and time of day${each}`;
  const warm = [
    'Check that source and meter are within their calibration, and set both to the same wavelength.',
    'Switch the source on and let it warm up until the power stands still.',
    'Look at every plug through an instrument with a filter, clean it, look again. Do so at every later mating.',
    ...(mode === 'multimode'
      ? [
          'Make the launch condition that the plan names; it belongs to the launch cord and stays on it.',
        ]
      : []),
  ];
  const keep =
    'From now on leave the launch cord in the source. If it is taken out, if the source is switched off or a cord changed, take the reference again.';
  const end = [
    'Check the reference during the work and after the last fibre: the same arrangement, the same wavelengths, with time of day. If it has drifted by more than the plan allows, what was read since the last good check does not count.',
  ];
  switch (method) {
    case 'two-cord':
      return [
        ...warm,
        `Join launch and receive cord in an adapter, from the source to the meter. ${note}: this is the reference; it holds one joint.`,
        keep,
        'Open the joint and put the link between the two cords.',
        ...end,
      ];
    case 'three-cord':
      return [
        ...warm,
        `Join launch, middle and receive cord in two adapters, from the source to the meter. ${note}: this is the reference; it holds two joints.`,
        keep,
        'Take the middle cord out and put the link in its place.',
        ...end,
      ];
    case 'equipment-cord':
      return [
        ...warm,
        `Take the reference with the equipment's own cords as the plan's method says. ${note}.`,
        keep,
        ...end,
      ];
    case 'one-cord':
      return [
        ...warm,
        `Plug the launch cord from the source straight into the meter. ${note}: this is the reference; it holds no joint.`,
        keep,
        ...(ends[1].plug
          ? ['The far plug of the link goes straight into the meter: no receive cord.']
          : [
              'Take the far plug out of the meter, add the receive cord, and join both cords in an adapter. What this joint loses proves both cords: write it down. If it is too much, clean, look, and change a cord before the first fibre.',
            ]),
        ...end,
      ];
    default:
      return [
        'The plan does not say how many cords the reference holds: ask before testing, since the limit depends on it.',
        ...warm,
      ];
  }
}

/** `MM-1: source S-3, meter M-5, launch encircled-flux; cords TC-1 launch, TC-2 receive, proven at 0.07 dB`. */
export function setupInWords(setup: Setup): string {
  const launch = launchInWords(setup);
  const cords = setup.cords.map(({ name, role, verified }) =>
    [name, role, verified === undefined ? '' : `proven at ${microToNumber(verified)} dB`]
      .filter(Boolean)
      .join(' '),
  );
  return [
    setup.source ? `source ${setup.source.text}` : '',
    setup.meter ? `meter ${setup.meter.text}` : '',
    launch === undefined ? '' : `launch ${launch}`,
    cords.length > 0 ? `cords ${cords.join(', ')}` : '',
  ]
    .filter(Boolean)
    .join('; ');
}
