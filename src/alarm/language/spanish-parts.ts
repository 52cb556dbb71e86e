import type { FactsOfKind } from '../facts.ts';
import type { PartTexts } from './language.ts';
import { TANK_FALLS } from './tank-falls.ts';
import { TANK_FULL } from './tank-full.ts';

const share = ({ oneIn }: FactsOfKind['line-bad']): string =>
  oneIn < 2 ? 'casi todo llega estropeado' : `un mensaje de cada ${oneIn} llega estropeado`;

/** Alarms about parts that fail before the water does. */
export const spanishParts: PartTexts = (since) => ({
  cards: {
    'tank-falls': TANK_FALLS.es.card,
    'tank-full': TANK_FULL.es.card,
    'relay-chatters': (facts) => ({
      cause: `El contacto del relé de la bomba castañetea ${since(facts.since)}: ocho cambios o más en un minuto.`,
      consequence: 'Los contactos se gastan y se calientan: peligro de incendio.',
      firstAction:
        'Desenchufe la bomba antes de que nadie abra la caja, y vuelva a enchufarla al final; la red eléctrica es cosa de un electricista autorizado.',
    }),
    'line-bad': (facts) => ({
      cause: `La línea con la placa va mal ${since(facts.since)}: ${share(facts)}.`,
      consequence: 'Lo que llega estropeado se descarta; si empeora, el ordenador pierde la placa.',
      firstAction:
        'Mire el cable de la placa: las clavijas, el largo, la distancia al cable de red de la bomba. Mueva el de la placa, no el de la bomba.',
    }),
    'host-hot': (facts) => ({
      cause: `El chip del ordenador está demasiado caliente ${since(facts.since)}: ahora ${facts.celsius.toFixed(0)} °C.`,
      consequence: 'Puede ir lento, o pararse.',
      firstAction: 'Con las manos secas: dele sombra y aire, límpielo de polvo, y no le dé otro trabajo.',
    }),
  },
  briefs: {
    'tank-falls': TANK_FALLS.es.brief,
    'tank-full': TANK_FULL.es.brief,
    'relay-chatters': (facts) => ({
      what: `EL RELÉ CASTAÑETEA ${since(facts.since)}: se calienta, peligro de incendio`,
      act: 'Desenchufe antes de abrir la caja; red: solo un electricista',
    }),
    'line-bad': (facts) => ({
      what: `Línea con la placa mala: ${share(facts)}`,
      act: 'Mire su cable: clavijas, largo, distancia al cable de la bomba',
    }),
    'host-hot': (facts) => ({
      what: `Ordenador demasiado caliente ${since(facts.since)}: ${facts.celsius.toFixed(0)} °C`,
      act: 'Manos secas; dele sombra y aire, límpielo de polvo',
    }),
  },
});
