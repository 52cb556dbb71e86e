import { describe, expect, it } from 'vitest';
import { asked } from '../../../firmware-host/campaign/options.ts';
import { INJECTORS } from '../../../sim/faults/injectors.ts';
import { replay } from '../../../sim/campaign/sum.ts';
import type { CampaignTask } from '../../../sim/campaign/task.ts';

const tasksOf = (...args: readonly string[]): readonly CampaignTask[] => {
  const read = asked(args);
  if (read.kind !== 'campaign') throw new Error(`${args.join(' ')}: ${JSON.stringify(read)}`);
  return read.tasks;
};
const ofLine = (line: string): readonly CampaignTask[] =>
  tasksOf(...line.split(' ').slice('npm run campaign --'.split(' ').length));

describe('the command line of the campaign', () => {
  it('asks for 100 seeds of 3 days from seed 1 on when it says nothing', () => {
    const tasks = tasksOf();
    expect(tasks).toHaveLength(100);
    expect(tasks[0]).toEqual({ seed: 1, days: 3, twice: false });
    expect(tasks.filter(({ twice }) => twice)).toHaveLength(5);
  });

  it('asks for each two of the injectors once, and for 30 days of each month', () => {
    expect(tasksOf('--pairs')).toHaveLength((INJECTORS.length * (INJECTORS.length - 1)) / 2);
    expect(tasksOf('--months', '2', '--from', '7')).toEqual(
      [7, 8].map((seed) => ({ seed, days: 30, faultFree: true, twice: false })),
    );
  });

  it.each<Omit<CampaignTask, 'twice'>>([
    { seed: 7, days: 3 },
    { seed: 7, days: 0.5, bytes: true },
    { seed: 9, days: 30, faultFree: true },
    { seed: 3, days: 3, pair: ['hold', 'pump-dead'] },
    { seed: 3, days: 3, pair: ['pump-dead', 'hold'], bytes: true },
  ])('gives of the replay command of %j that seed, with its injectors in their order', (task) => {
    expect(ofLine(replay({ ...task, twice: false }))).toEqual([{ ...task, twice: true }]);
  });

  it.each([
    ['--seed 3 --pair pump-ded,hold', '"pump-ded" is no injector'],
    ['--seed 3 --pair=', '"" is no injector'],
    ['--seeds 1 --fault-free', '--fault-free goes with --seed ONE'],
    ['--seeds 1 --pair hold', '--pair goes with --seed ONE'],
    ['--seed 3 --pair hold --fault-free', '--pair would do nothing beside --fault-free'],
    ['--seed 3 --seeds 5', '--seeds would do nothing beside --seed'],
    ['--seed 3 --from 5', '--from would do nothing beside --seed'],
    ['--seed 3 --pairs', '--pairs would do nothing beside --seed'],
    ['--months 2 --days 5', '--days would do nothing beside --months'],
    ['--pairs --seeds 5', '--seeds would do nothing beside --pairs'],
    ['--nonsense', 'nonsense'],
    ['--pairs 7', '7'],
    ['--seed', 'seed'],
    ['--seeds 0', '"0" is no whole number above 0'],
    ['--seeds 1.5', '"1.5" is no whole number above 0'],
    ['--seed three', '"three" is no whole number above 0'],
    ['--days 0.1', '"0.1" is no number of days from 0.25 on'],
    ['--days long', '"long" is no number of days from 0.25 on'],
  ])('refuses %s, and says %s', (line, why) => {
    const read = asked(line.split(' '));
    expect(read.kind).toBe('refused');
    expect(read).toHaveProperty('why', expect.stringContaining(why));
  });

  it('tells what it knows when it is asked for help', () => {
    expect(asked(['--help'])).toEqual({ kind: 'help' });
  });
});
