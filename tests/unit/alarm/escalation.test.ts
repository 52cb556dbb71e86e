import { describe, expect, it } from 'vitest';
import { calledOn, callWords, type CalledOn } from './called-on.ts';
import { cardOf } from './made-alarms.ts';

/** Escalation and speaking again are in faults.md, "Which reaction wins"; floors and rungs are the project's own. */
const words = (shed: CalledOn): readonly string[] => shed.calls().map(callWords);

describe('an alarm on water that nobody acknowledges', () => {
  it('goes to the next person every 10 min while much time is left', () => {
    const shed = calledOn();
    shed.stands('missed-flood');
    shed.until(30);
    expect(words(shed)).toEqual([
      'raised missed-flood 0 at 0',
      'escalated missed-flood 1 at 10',
      'escalated missed-flood 2 at 20',
      'escalated missed-flood 3 at 30',
    ]);
  });

  it('goes on after a quarter of the time left where that is less; to a fifth person and on every 5 min at most', () => {
    const shed = calledOn();
    shed.left(20);
    shed.stands('missed-flood');
    shed.until(20);
    const at = shed.calls().map((call) => Math.round(call.at * 100) / 100);
    // 20/4, then 15/4, 11.25/4.
    expect(at).toEqual([0, 5, 8.75, 11.56, 16.56]);
  });

  it('goes to three more people a minute each where no time is left, and then every 5 min', () => {
    const shed = calledOn();
    shed.left(0);
    shed.stands('missed-flood');
    shed.until(20);
    expect(shed.calls().map(({ at }) => Math.round(at))).toEqual([0, 1, 2, 3, 8, 13, 18]);
  });

  it('goes on sooner when less time is left than was thought', () => {
    const shed = calledOn();
    shed.stands('missed-flood');
    shed.until(2);
    shed.left(12);
    shed.until(5);
    expect(words(shed)).toEqual(['raised missed-flood 0 at 0', 'escalated missed-flood 1 at 5']);
  });

  it('says that nobody has answered, and how many minutes are left', () => {
    const shed = calledOn();
    shed.left(100);
    shed.stands('missed-flood');
    shed.until(10);
    expect(shed.calls().map(({ text, minutesLeft }) => [text, minutesLeft])).toEqual([
      ['It is so. Look.', 100],
      ['Nobody has answered yet: It is so. Look.', 90],
    ]);
  });
});

describe('an alarm on water that somebody has acknowledged', () => {
  it('speaks again at half of the time then left, again and again, and not more often than every 5 min', () => {
    const shed = calledOn();
    shed.left(80);
    shed.stands('missed-flood');
    shed.until(0);
    shed.acknowledge('missed-flood');
    shed.until(80);
    expect(words(shed)).toEqual([
      'raised missed-flood 0 at 0',
      'again missed-flood 0 at 40',
      'again missed-flood 1 at 60',
      'again missed-flood 2 at 70',
      'again missed-flood 3 at 75',
      'again missed-flood 4 at 80',
    ]);
    expect(shed.calls().at(-1)!.text).toMatch(/^Still so: It is so\./);
  });

  it('is over once, for those who were called', () => {
    const shed = calledOn();
    shed.stands('missed-flood');
    shed.until(0);
    shed.acknowledge('missed-flood');
    shed.until(5);
    shed.stands();
    shed.until(60);
    expect(words(shed)).toEqual(['raised missed-flood 0 at 0', 'returned missed-flood 0 at 5']);
    expect(shed.calls().at(-1)!.text).toBe('Over: missed flood.');
  });
});

describe('once every bench has passed its wilt floor', () => {
  it('an acknowledged alarm speaks again once an hour, and before that every 5 min', () => {
    const shed = calledOn();
    shed.left(5);
    shed.stands('missed-flood');
    shed.until(1);
    shed.acknowledge('missed-flood');
    shed.until(20);
    const before = words(shed).length;
    shed.lost();
    shed.until(21);
    const from = words(shed).length;
    shed.until(24 * 60);
    expect(before).toBeGreaterThan(3);
    expect(words(shed).length - from).toBeLessThanOrEqual(25);
    expect(words(shed).length - from).toBeGreaterThanOrEqual(23);
  });

  it('an unanswered one goes round four people within 3 min, then to one an hour', () => {
    const shed = calledOn();
    shed.left(0);
    shed.lost();
    shed.stands('missed-flood');
    shed.until(130);
    expect(words(shed)).toEqual([
      'raised missed-flood 0 at 0',
      'escalated missed-flood 1 at 1',
      'escalated missed-flood 2 at 2',
      'escalated missed-flood 3 at 3',
      'escalated missed-flood 4 at 63',
      'escalated missed-flood 5 at 123',
    ]);
  });
});

describe('an acknowledged alarm on water of medium priority', () => {
  it.each(['return-lower', 'weak-flow', 'tank-falls', 'strength-off'] as const)(
    '%s speaks again every 8 h while little time is left: the plants are watered, but it stands',
    (kind) => {
      const shed = calledOn();
      shed.left(300);
      shed.stands(cardOf(kind, 'x', 'medium'));
      shed.until(1);
      shed.acknowledge(kind);
      shed.until(24 * 60);
      expect(words(shed)).toEqual([
        `raised ${kind} 0 at 0`,
        `again ${kind} 0 at 481`,
        `again ${kind} 1 at 961`,
      ]);
    },
  );

  it('speaks again once a day at least, and wakes nobody: what falls due at night waits for the morning', () => {
    const shed = calledOn();
    shed.left(100 * 24 * 60);
    shed.stands(cardOf('return-lower', 'x', 'medium'));
    shed.until(1);
    shed.acknowledge('return-lower');
    shed.until(24 * 60);
    shed.hour('night');
    shed.until(30 * 60);
    shed.hour('day');
    shed.until(31 * 60);
    expect(words(shed)).toEqual(['raised return-lower 0 at 0', 'again return-lower 0 at 1800']);
  });
});

describe('an alarm of medium priority about water that nobody answers', () => {
  it('goes to two more people, then reminds as one that somebody has seen: by day, and at night not', () => {
    const shed = calledOn();
    shed.left(24 * 60);
    shed.stands(cardOf('return-lower', 'x', 'medium'));
    shed.until(12 * 60);
    shed.hour('night');
    shed.until(20 * 60);
    shed.hour('day');
    shed.until(21 * 60);
    expect(words(shed)).toEqual([
      'raised return-lower 0 at 0',
      'escalated return-lower 1 at 10',
      'escalated return-lower 2 at 20',
      'escalated return-lower 3 at 1200',
    ]);
  });

  it('is called from the first person on, and pressed, once it is high', () => {
    const shed = calledOn();
    shed.left(24 * 60);
    shed.stands(cardOf('tank-falls', 'x', 'medium'));
    shed.until(60);
    shed.stands(cardOf('tank-falls', 'y', 'high'));
    shed.until(75);
    expect(words(shed).slice(3)).toEqual(['raised tank-falls 0 at 60', 'escalated tank-falls 1 at 70']);
  });
});

describe('an alarm that is not about water today', () => {
  it('goes to two more people where it is medium, and then once a day to the next', () => {
    const shed = calledOn();
    shed.stands('not-recording');
    shed.until(2 * 24 * 60);
    expect(words(shed)).toEqual([
      'raised not-recording 0 at 0',
      'escalated not-recording 1 at 10',
      'escalated not-recording 2 at 20',
      'escalated not-recording 3 at 1460',
    ]);
  });

  it('speaks again once a day when it is acknowledged, not at night, and says that it is over', () => {
    const shed = calledOn();
    shed.stands('not-recording');
    shed.until(0);
    shed.acknowledge('not-recording');
    shed.until(24 * 60 - 1);
    shed.hour('night');
    shed.until(26 * 60);
    shed.hour('day');
    shed.until(27 * 60);
    shed.stands();
    shed.until(28 * 60);
    expect(words(shed)).toEqual([
      'raised not-recording 0 at 0',
      'again not-recording 0 at 1560',
      'returned not-recording 0 at 1625',
    ]);
  });

  it('does not speak again where it is low and somebody has seen it', () => {
    const shed = calledOn();
    shed.stands('no-good-temperature');
    shed.until(0);
    shed.acknowledge('no-good-temperature');
    shed.until(3 * 24 * 60);
    expect(words(shed)).toEqual(['raised no-good-temperature 0 at 0']);
  });

  it('waits for the day where it is low, and calls once', () => {
    const shed = calledOn();
    shed.hour('night');
    shed.stands('no-good-temperature');
    shed.until(120);
    expect(words(shed)).toEqual([]);
    shed.hour('day');
    shed.until(400);
    expect(words(shed)).toEqual(['raised no-good-temperature 0 at 120']);
  });

  it('that came and went in one night calls nobody, however low it was', () => {
    const shed = calledOn();
    shed.hour('night');
    shed.stands('no-good-temperature');
    shed.until(60);
    shed.stands();
    shed.until(120);
    shed.hour('day');
    shed.until(200);
    expect([words(shed), shed.alarms().map(({ state }) => state)]).toEqual([[], ['returned-unacknowledged']]);
  });

  it('rings at night where it is medium or high', () => {
    const shed = calledOn();
    shed.hour('night');
    shed.stands('not-recording', 'tank-low');
    shed.until(0);
    expect(words(shed)).toEqual(['raised not-recording 0 at 0', 'raised tank-low 0 at 0']);
  });

  it('is silent while it is put off, and is called anew when that ends', () => {
    const shed = calledOn();
    shed.stands('not-recording');
    shed.until(1);
    shed.shelve('not-recording', 60);
    shed.until(70);
    expect(words(shed)).toEqual(['raised not-recording 0 at 0', 'raised not-recording 0 at 61']);
  });

  it('is called anew when it gets worse, put off or not', () => {
    const shed = calledOn();
    shed.stands(cardOf('clock-drift', 'A little.', 'low'));
    shed.until(1);
    shed.shelve('clock-drift', 60);
    shed.until(5);
    shed.stands(cardOf('clock-drift', 'Much.', 'medium'));
    shed.until(6);
    expect(words(shed)).toEqual(['raised clock-drift 0 at 0', 'raised clock-drift 0 at 5']);
  });
});
