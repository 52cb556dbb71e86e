import { itemAt } from '../units/assertion.ts';
import type { FarmProblem } from './problem.ts';
import type { ReadableFarm } from './readable.ts';
import { valueAt } from './schema-walk.ts';

const paceProblems = (file: ReadableFarm, raw: unknown): readonly FarmProblem[] =>
  file.dayPlan.flatMap((_, place): readonly FarmProblem[] => {
    const path = ['dayPlan', place];
    const hasNumber = valueAt(raw, [...path, 'floods']) !== undefined;
    const hasRest = valueAt(raw, [...path, 'restMinutes']) !== undefined;
    if (hasNumber !== hasRest) return [];
    const allowed = 'either floods (a number to spread evenly) or restMinutes';
    return hasNumber
      ? [
          {
            path: [...path, 'restMinutes'],
            found: 'floods and restMinutes',
            allowed,
            problem: 'The number of floods and the rest between them cannot both be chosen.',
            advice: 'Remove one of the two.',
            pointsAt: 'key',
          },
        ]
      : [
          {
            path,
            found: 'neither floods nor restMinutes',
            allowed,
            problem: 'Nothing says how often this part floods.',
          },
        ];
  });

interface Span {
  readonly shortest: number;
  readonly longest: number;
}

const outside = (
  path: readonly (string | number)[],
  value: number | undefined,
  span: Span,
  source: string,
): readonly FarmProblem[] =>
  value === undefined || (value >= span.shortest && value <= span.longest)
    ? []
    : [
        {
          path,
          found: String(value),
          allowed: `${span.shortest} to ${span.longest}, from ${source}`,
          problem: 'The plan goes past the farm’s own bounds.',
          advice: 'Change the plan, or the bounds if they are too narrow.',
        },
      ];

const boundProblems = ({ bounds, dayPlan }: ReadableFarm): readonly FarmProblem[] => {
  if (bounds === undefined) return [];
  const { restMinutesByDay: day, restMinutesByNight: night } = bounds;
  const rests = {
    shortest: Math.min(day.shortest, night.shortest),
    longest: Math.max(day.longest, night.longest),
  };
  return dayPlan.flatMap(({ floodMinutes, restMinutes }, place) => [
    ...outside(['dayPlan', place, 'floodMinutes'], floodMinutes, bounds.floodMinutes, 'bounds.floodMinutes'),
    ...outside(['dayPlan', place, 'restMinutes'], restMinutes, rests, 'bounds.restMinutesByDay and ByNight'),
  ]);
};

const pumpProblems = ({ bounds, dayPlan, pump }: ReadableFarm): readonly FarmProblem[] => {
  if (pump === undefined) return [];
  const most = pump.longestOnMinutes;
  const tooLong = (
    path: readonly (string | number)[],
    minutes: number | undefined,
  ): readonly FarmProblem[] =>
    minutes === undefined || minutes <= most
      ? []
      : [
          {
            path,
            found: String(minutes),
            allowed: `at most ${most}, from pump.longestOnMinutes`,
            problem: 'The pump would be stopped before the flood ends.',
            advice: 'Shorten the flood, or let the pump run longer if it is built for that.',
          },
        ];
  return [
    ...dayPlan.flatMap(({ floodMinutes }, place) =>
      tooLong(['dayPlan', place, 'floodMinutes'], floodMinutes),
    ),
    ...tooLong(['bounds', 'floodMinutes', 'longest'], bounds?.floodMinutes.longest),
  ];
};

/** What each day part says by itself and against the bounds and the pump. */
export const dayPartProblems = (file: ReadableFarm, raw: unknown): readonly FarmProblem[] => [
  ...paceProblems(file, raw),
  ...boundProblems(file),
  ...pumpProblems(file),
];

/** Names that stand for one thing each; letter case and spaces at the ends make no difference. */
export const twiceNamed = (
  names: readonly (string | undefined)[],
  pathOf: (place: number) => readonly (string | number)[],
): readonly FarmProblem[] => {
  const plain = names.map((name) => name?.trim().toLowerCase());
  return plain.flatMap((name, place): readonly FarmProblem[] => {
    const first = plain.indexOf(name);
    if (name === undefined || first === place) return [];
    return [
      {
        path: pathOf(place),
        found: `“${itemAt(names, place) ?? ''}”`,
        allowed: 'a name that no other has',
        problem: `Number ${first + 1} of this list has the same name.`,
      },
    ];
  });
};
