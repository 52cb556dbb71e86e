/** What can be broken in the simulated shed. A fault acts on the plant and its sensors, never on the controller. */
export const FAULTS = {
  'pump-dead': 'the relay closes and the pump draws current, but nothing flows',
  'pump-unplugged': 'the relay closes, no current, nothing flows',
  'mains-lost': 'the mains of the pump are lost: no current, nothing flows, and a mains contact says so',
  'relay-open': 'the relay does not close',
  'relay-welded': 'the relay closes, asked or not, and does not open any more',
  'filter-clogged': 'two thirds of the flow are gone',
  'filter-clogging': 'the filter lets through a little less each hour: a tenth of the flow after three weeks',
  'inlet-blocked': 'one bench gets no water: the first planted one, unless named',
  'branch-clogging':
    'the branch of one bench lets through a little less each hour: a tenth of its flow after three weeks, unless told otherwise',
  'top-up-stopped': 'no water comes into the tank any more',
  'top-up-salty': 'the water that tops up the tank has 2 mS/cm more than usual',
  'probe-drifting': 'the strength probe reads two per cent less each day, and the grower doses by it',
  leak: 'a litre a minute leaves the tank',
  'flow-stuck-low': 'the return sensor says that nothing flows',
  'flow-stuck-high': 'the return sensor says that water flows',
  'flow-silent': 'the return sensor says nothing',
  'air-silent': 'the air thermometer says nothing',
  'air-open': 'the air thermometer reads −127 °C',
  'air-in-sun': 'the air thermometer reads 15 °C too much',
  'float-stuck-low': 'the tank float reads low in a full tank',
} as const;

export type FaultKind = keyof typeof FAULTS;

/** A fault from one moment on, until another or for good; milliseconds since 1970. */
export interface Fault {
  readonly kind: FaultKind;
  readonly fromMillis: number;
  readonly untilMillis: number;
  /** Place of the bench that it breaks, where it is about one; the first planted bench unless given. */
  readonly bench?: number;
  /** How a branch clogs, where that is told. */
  readonly clogging?: Clogging;
}

/** What is left of the flow in the end, and after how many days that is; evenly from hour to hour. */
export interface Clogging {
  readonly endShare: number;
  readonly days: number;
}

/** A filter or a branch that nobody cleans; engineering judgement, no source. */
export const CLOGGING: Clogging = { endShare: 0.1, days: 21 };

/** Faults that break one bench and no other. */
export const isOfOneBench = (kind: FaultKind): boolean =>
  kind === 'inlet-blocked' || kind === 'branch-clogging';

export const isFaultKind = (text: string): text is FaultKind => Object.hasOwn(FAULTS, text);

export const standing = (faults: readonly Fault[], kind: FaultKind, atMillis: number): boolean =>
  faults.some((fault) => fault.kind === kind && fault.fromMillis <= atMillis && atMillis < fault.untilMillis);

const HOUR_MILLIS = 3_600_000;

/** What grows while it stands is taken anew each whole hour of it. */
const hourOf = ({ kind, fromMillis, untilMillis }: Fault, atMillis: number): readonly number[] =>
  (kind === 'filter-clogging' || kind === 'branch-clogging') &&
  fromMillis <= atMillis &&
  atMillis < untilMillis
    ? [fromMillis + (Math.floor((atMillis - fromMillis) / HOUR_MILLIS) + 1) * HOUR_MILLIS]
    : [];

/** For how long a fault has stood, in whole hours; null where none of its kind stands. */
export const hoursOf = (faults: readonly Fault[], kind: FaultKind, atMillis: number): number | null => {
  const found = faults.find(
    (fault) => fault.kind === kind && fault.fromMillis <= atMillis && atMillis < fault.untilMillis,
  );
  return found === undefined ? null : Math.floor((atMillis - found.fromMillis) / HOUR_MILLIS);
};

/** The next moment after `atMillis` at which a fault begins, ends or has grown; Infinity when none does. */
export const nextChange = (faults: readonly Fault[], atMillis: number): number =>
  faults
    .flatMap((fault) => [fault.fromMillis, fault.untilMillis, ...hourOf(fault, atMillis)])
    .filter((moment) => moment > atMillis)
    .reduce((soonest, moment) => Math.min(soonest, moment), Infinity);
