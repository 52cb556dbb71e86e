import type { FactsOfKind } from '../facts.ts';
import type { PartTexts } from './language.ts';
import { strengthOffBrief, strengthOffCard } from './strength-off.ts';
import { RETURN_LOWER } from './return-lower.ts';
import { TANK_FALLS } from './tank-falls.ts';
import { TANK_FULL } from './tank-full.ts';

const share = ({ oneIn }: FactsOfKind['line-bad']): string =>
  oneIn < 2 ? 'nearly all of it comes spoilt' : `one message in ${oneIn} comes spoilt`;

const charge = ({ percent, volts }: FactsOfKind['host-battery']): string =>
  volts === null ? `${percent} %` : `${percent} %, ${volts.toFixed(1)} V`;

/** Alarms about parts that fail before the water does. */
export const englishParts: PartTexts = (since) => ({
  cards: {
    'tank-falls': TANK_FALLS.en.card,
    'tank-full': TANK_FULL.en.card,
    'strength-off': strengthOffCard('en', since),
    'return-lower': RETURN_LOWER.en.card,
    'relay-chatters': (facts) => ({
      cause: `The relay contact of the pump has chattered ${since(facts.since)}: eight changes or more within a minute.`,
      consequence: 'Its contacts wear and get hot: risk of fire.',
      firstAction:
        'Pull the plug of the pump before anybody opens the box, and put it back after; leave mains work to a licensed person.',
    }),
    'float-unmoved': (facts) => ({
      cause: `The tank float has not moved for ${facts.days} days.`,
      consequence: 'One that is stuck looks the same, and would not tell that the tank runs dry.',
      firstAction:
        'Pull the plug of the pump, lift the float by hand and lower it, look whether the status follows, and put the plug back.',
    }),
    'line-bad': (facts) => ({
      cause: `The line to the board has been bad ${since(facts.since)}: ${share(facts)}.`,
      consequence: 'What is spoilt is dropped; if it gets worse the host loses the board.',
      firstAction:
        "Look at the board's cable: its plugs, its length, its distance to the pump's mains lead. Move the cable, not the mains lead.",
    }),
    'host-hot': (facts) => ({
      cause: `The chip of the host has been too hot ${since(facts.since)}: now ${facts.celsius.toFixed(0)} °C.`,
      consequence: 'It may slow down, or stop.',
      firstAction: 'With dry hands: give it shade and air, clear it of dust, and keep other work off it.',
    }),
    'host-large': (facts) => ({
      cause: `The program of the host has taken too much memory ${since(facts.since)}: now ${facts.megabytes.toFixed(0)} MB.`,
      consequence:
        facts.renewed === 'by-itself'
          ? 'It ends by itself between two floods, at night if it can wait, and is started anew at once.'
          : 'It may be cut off in the middle of a flood.',
      firstAction:
        facts.renewed === 'by-itself'
          ? 'Nothing to do now; if it comes again, report it as a defect.'
          : 'End it between two floods and start it anew; then report this as a defect.',
    }),
    'host-battery': (facts) => ({
      cause: `The battery of the host is being drained ${since(facts.since)}: now ${charge(facts)}.`,
      consequence:
        'When it is flat the host is gone and calls nobody: a board with a keeper goes on flooding by its own table, a stock board floods no more.',
      firstAction: 'With dry hands see its power supply and the mains; charge or change the battery.',
    }),
  },
  briefs: {
    'tank-falls': TANK_FALLS.en.brief,
    'tank-full': TANK_FULL.en.brief,
    'strength-off': strengthOffBrief('en'),
    'return-lower': RETURN_LOWER.en.brief,
    'relay-chatters': (facts) => ({
      what: `RELAY CHATTERS ${since(facts.since)}: contacts wear and get hot, risk of fire`,
      act: 'Pull the plug before the box is opened; mains: licensed person',
    }),
    'float-unmoved': (facts) => ({
      what: `The tank float has not moved for ${facts.days} days`,
      act: 'Pump unplugged, lift it by hand and look whether status follows',
    }),
    'line-bad': (facts) => ({
      what: `Line to the board bad: ${share(facts)}`,
      act: "See its cable: plugs, length, distance to the pump's mains lead",
    }),
    'host-hot': (facts) => ({
      what: `Host too hot ${since(facts.since)}: ${facts.celsius.toFixed(0)} °C`,
      act: 'Dry hands; give it shade and air, clear it of dust',
    }),
    'host-large': (facts) => ({
      what: `Host takes too much memory: ${facts.megabytes.toFixed(0)} MB`,
      act:
        facts.renewed === 'by-itself'
          ? 'It starts itself anew between floods; report it if it comes again'
          : 'End it between two floods and start it anew',
    }),
    'host-battery': (facts) => ({
      what: `Host battery ${charge(facts)}; flat, it calls nobody, only a keeper floods on`,
      act: 'Dry hands; see its supply and the mains',
    }),
  },
});
