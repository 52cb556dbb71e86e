import type { FactsOfKind } from '../facts.ts';
import { decimalComma, type PartTexts } from './language.ts';
import { strengthOffBrief, strengthOffCard } from './strength-off.ts';
import { RETURN_LOWER } from './return-lower.ts';
import { TANK_FALLS } from './tank-falls.ts';
import { TANK_FULL } from './tank-full.ts';

const share = ({ oneIn }: FactsOfKind['line-bad']): string =>
  oneIn < 2 ? 'casi todo llega estropeado' : `un mensaje de cada ${oneIn} llega estropeado`;

const charge = ({ percent, volts }: FactsOfKind['host-battery']): string =>
  volts === null ? `${percent} %` : `${percent} %, ${decimalComma(volts.toFixed(1))} V`;

/** Alarms about parts that fail before the water does. */
export const spanishParts: PartTexts = (since) => ({
  cards: {
    'tank-falls': TANK_FALLS.es.card,
    'tank-full': TANK_FULL.es.card,
    'strength-off': strengthOffCard('es', since),
    'return-lower': RETURN_LOWER.es.card,
    'relay-chatters': (facts) => ({
      cause: `El contacto del relé de la bomba castañetea ${since(facts.since)}: ocho cambios o más en un minuto.`,
      consequence: 'Los contactos se gastan y se calientan: peligro de incendio.',
      firstAction:
        'Desenchufe la bomba antes de que nadie abra la caja, y vuelva a enchufarla al final; la red eléctrica es cosa de un electricista autorizado.',
    }),
    'float-unmoved': (facts) => ({
      cause: `La boya del depósito no se mueve desde hace ${facts.days} días.`,
      consequence: 'Una boya atascada parece igual, y no diría que el depósito se queda seco.',
      firstAction:
        'Desenchufe la bomba, suba y baje la boya con la mano, mire si el estado la sigue, y vuelva a enchufar la bomba.',
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
    'host-large': (facts) => ({
      cause: `El programa del ordenador ocupa demasiada memoria ${since(facts.since)}: ahora ${facts.megabytes.toFixed(0)} MB.`,
      consequence:
        facts.renewed === 'by-itself'
          ? 'Termina solo entre dos riegos, de noche si puede esperar, y arranca enseguida de nuevo.'
          : 'Puede quedar cortado en mitad de un riego.',
      firstAction:
        facts.renewed === 'by-itself'
          ? 'Por ahora no hay que hacer nada; si vuelve, comuníquelo como defecto.'
          : 'Termínelo entre dos riegos y arránquelo de nuevo; luego comuníquelo como defecto.',
    }),
    'host-battery': (facts) => ({
      cause: `La batería del ordenador se está gastando ${since(facts.since)}: ahora ${charge(facts)}.`,
      consequence:
        'Cuando se agote, el ordenador se apaga y no avisa: una placa con tabla propia sigue regando, una placa corriente no.',
      firstAction: 'Con las manos secas mire su alimentación y si hay corriente; cargue o cambie la batería.',
    }),
  },
  briefs: {
    'tank-falls': TANK_FALLS.es.brief,
    'tank-full': TANK_FULL.es.brief,
    'strength-off': strengthOffBrief('es'),
    'return-lower': RETURN_LOWER.es.brief,
    'relay-chatters': (facts) => ({
      what: `EL RELÉ CASTAÑETEA ${since(facts.since)}: se calienta, peligro de incendio`,
      act: 'Desenchufe antes de abrir la caja; red: solo un electricista',
    }),
    'float-unmoved': (facts) => ({
      what: `La boya del depósito no se mueve desde hace ${facts.days} días`,
      act: 'Con la bomba desenchufada, súbala con la mano y mire si el estado la sigue',
    }),
    'line-bad': (facts) => ({
      what: `Línea con la placa mala: ${share(facts)}`,
      act: 'Mire su cable: clavijas, largo, distancia al cable de la bomba',
    }),
    'host-hot': (facts) => ({
      what: `Ordenador demasiado caliente ${since(facts.since)}: ${facts.celsius.toFixed(0)} °C`,
      act: 'Manos secas; dele sombra y aire, límpielo de polvo',
    }),
    'host-large': (facts) => ({
      what: `El programa ocupa demasiada memoria: ${facts.megabytes.toFixed(0)} MB`,
      act:
        facts.renewed === 'by-itself'
          ? 'Arranca solo de nuevo entre riegos; comuníquelo si vuelve'
          : 'Termínelo entre dos riegos y arránquelo de nuevo',
    }),
    'host-battery': (facts) => ({
      what: `Batería del ordenador ${charge(facts)}; vacía, nadie avisa, solo riega placa con tabla`,
      act: 'Manos secas; vea su alimentación',
    }),
  },
});
