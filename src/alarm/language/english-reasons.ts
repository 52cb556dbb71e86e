/**
 * The reasons that may enter an alarm, word for word as sensors, interlocks and verdicts write them. Other languages
 * have the same names. `{places}` are numbers, but for who, where, span and reason. Those of ports, channels and the host:
 * reasons/host-reasons.ts.
 */
export const ENGLISH_REASONS = {
  'not-spoken': 'it has not spoken',
  chatters: 'it chatters: a loose or wet contact',
  'last-reading-old': 'last reading is {seconds} s old',
  'no-flow-meter': 'no flow meter has spoken',
  'flow-meter-nonsense': 'the flow meter reads nonsense',
  'air-not-spoken': 'the air thermometer has not spoken',
  'air-out-of-range': 'the air thermometer reads out of range: open or shorted',
  'air-jumped': 'the air thermometer jumped',
  'air-still': 'the air thermometer has not moved for {hours} hours',
  'air-colder-than-water':
    'the air thermometer reads {degrees} °C colder than the one in the water, by day: one of them is wrong',
  'return-weak': 'return flow {flow} L/min, usually {usual}',
  'return-cut-short': 'water came back for only {water} of {minutes} min',
  'after-retries': '{reason}, after {retries} retries',
  'board-sip': 'the board gave only a sip',
  'board-stopped-it': 'the board stopped it after {span}',
  'drew-current': 'it has drawn current',
  'past-its-relay': 'it has drawn current past its open relay',
  'contact-closed': 'its relay has been closed',
  'water-came-back': 'water has come back',
  'draws-current': 'the pump draws current',
  'leak-wet': 'the leak sensor is wet',
  'overflow-wet': 'the overflow float is wet',
  'leak-and-overflow-wet': 'leak sensor and overflow float are both wet',
  'not-begun': 'no flood has begun, though one is due',
  'float-low': 'the tank float reads low',
  held: 'held by {who}',
  'board-does-not-answer': 'the board does not answer',
  'board-silent': 'the board has not answered for {seconds} s',
  'keeper-silent': 'the keeper has not answered for {seconds} s',
  'board-reset': 'the board has reset itself',
  'board-not-found': 'the board has not been found yet',
  unplugged: 'unplugged',
  closed: 'closed',
  'no-firmata': 'nothing there speaks Firmata',
  'at-port': '{where}: {reason}',
} as const;
