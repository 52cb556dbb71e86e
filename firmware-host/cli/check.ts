import { spanOf } from '../../src/alarm/language/language.ts';
import { farmJsonSchema } from '../../src/farm/json-schema.ts';
import { partSpans } from '../../src/farm/day-boundaries.ts';
import type { DayPart, Farm } from '../../src/farm/farm.ts';
import { channelNames } from '../../src/farm/herald-warnings.ts';
import { physicsWarnings } from '../../src/farm/physics-check.ts';
import { MILLIS_PER_MINUTE, wallMillis } from '../../src/time/instant.ts';
import { localClockText, localDayOf, localDayOn } from '../../src/time/local-day.ts';
import { deadlineMinutes } from '../../src/verify/flood.ts';
import { NOTHING_LEARNED, returnLagMinutes } from '../../src/verify/learned.ts';
import { tellWarnings } from '../farm-file/tell.ts';
import type { Console } from './console.ts';
import { EXIT, type ExitCode } from './exit-code.ts';
import { acceptedFarm, todayFor } from './farm-argument.ts';
import { Refusal } from './refusal.ts';
import { wrapped } from './wrap.ts';

export interface CheckOptions {
  readonly json?: boolean;
  readonly schema?: boolean;
}

const paceWords = ({ pace, floodMinutes }: DayPart, partMinutes: number): string => {
  switch (pace.kind) {
    case 'number': {
      const rest = partMinutes / pace.floods - floodMinutes;
      const floods = `${pace.floods} ${pace.floods === 1 ? 'flood' : 'floods'} of ${floodMinutes} min`;
      return `${floods}, rest about ${spanOf(rest)}`;
    }
    case 'rest':
      return `floods of ${floodMinutes} min, rest ${spanOf(pace.restMinutes)}`;
  }
};

/** The day plan as it falls on one date, part by part. */
const planLines = (farm: Farm, date: string): readonly string[] => {
  const day = localDayOn(date, farm.place.timeZone);
  const clock = (at: number): string => localClockText(wallMillis(at), farm.place.timeZone);
  const named = new Set<string>();
  return partSpans(farm.dayPlan, farm.place, day).flatMap(({ part, wholeStart, wholeEnd }) => {
    if (named.has(part.name)) return [];
    named.add(part.name);
    const minutes = (wholeEnd - wholeStart) / MILLIS_PER_MINUTE;
    return [`  ${clock(wholeStart)} to ${clock(wholeEnd)}  ${part.name}: ${paceWords(part, minutes)}`];
  });
};

/** How somebody far away comes to know that everything here is dark. */
const WATCHES = {
  broker: 'told by the broker, with the last will of this host',
  'second-phone': 'told by a second phone or dialler that does not need this host',
  'web-check': 'told by a web check that misses a sign of life',
} as const;

const watcherWords = ({ outsideWatcher }: Farm): string => {
  if (outsideWatcher === 'nobody') return 'nobody';
  const { who, by } = outsideWatcher;
  return by === undefined ? who : `${who}, ${WATCHES[by]}`;
};

const callWords = ({ herald }: Farm): string => {
  if (herald === undefined) return 'Nobody is called: there is no herald.';
  const channels = channelNames(herald);
  if (channels.length === 0) return 'Nobody is called: no channel leads to anybody.';
  const people = herald.people.map(({ name }) => name);
  return `Called, in this order: ${people.length === 0 ? 'no person' : people.join(', ')}; by ${channels.join(', ')}. All well is told at ${herald.allWellAt}.`;
};

/** `rillkeeper check FARM` */
export const check = async (
  path: string | undefined,
  options: CheckOptions,
  console: Console,
): Promise<ExitCode> => {
  if (options.schema === true) {
    console.out(JSON.stringify(farmJsonSchema(), null, 2));
    return EXIT.done;
  }
  if (path === undefined || path === '')
    throw new Refusal('check: name a farm file, or ask for --schema.', EXIT.usage);
  const { farm, file, locate } = await acceptedFarm(path);
  const today = todayFor(farm, localDayOf(wallMillis(Date.now()), farm.place.timeZone).date);
  const warnings = physicsWarnings(farm, today);
  const deadline = deadlineMinutes(farm, returnLagMinutes(NOTHING_LEARNED));
  if (options.json === true) {
    const placed = warnings.map((warning) => ({ ...locate(warning.path), ...warning }));
    console.out(
      JSON.stringify(
        { ok: true, farm: farm.farm, today, deadlineMinutes: deadline, warnings: placed },
        null,
        2,
      ),
    );
    return EXIT.done;
  }
  // An editor wants a warning on one line, a person at a terminal does not.
  const asRead = (lines: string): string =>
    console.outAtTerminal ? wrapped(lines, console.columns, 2) : lines;
  console.out(
    [
      `${file}: good. ${farm.farm}, ${farm.benches.length} bench${farm.benches.length === 1 ? '' : 'es'}.`,
      ...(farm.invented === undefined ? [] : ['An invented farm: none of these data are of a real one.']),
      `Day plan on ${today}, before temperature moves it:`,
      ...planLines(farm, today),
      wrapped(
        `A flood that shows no water is called missed ${deadline.toFixed(0)} min after its start at the latest, retries included.`,
        console.columns,
      ),
      `When the board is dead: ${farm.deadBoard}. Outside watcher: ${watcherWords(farm)}.`,
      wrapped(callWords(farm), console.columns),
      ...(warnings.length === 0 ? [] : ['', asRead(tellWarnings(file, warnings, locate))]),
    ].join('\n'),
  );
  return EXIT.done;
};
