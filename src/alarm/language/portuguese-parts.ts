import type { FactsOfKind } from '../facts.ts';
import type { PartTexts } from './language.ts';
import { TANK_FALLS } from './tank-falls.ts';
import { TANK_FULL } from './tank-full.ts';

const share = ({ oneIn }: FactsOfKind['line-bad']): string =>
  oneIn < 2 ? 'quase tudo chega estragado' : `uma mensagem em ${oneIn} chega estragada`;

/** Alarms about parts that fail before the water does. */
export const portugueseParts: PartTexts = (since) => ({
  cards: {
    'tank-falls': TANK_FALLS.pt.card,
    'tank-full': TANK_FULL.pt.card,
    'relay-chatters': (facts) => ({
      cause: `O contacto do relé da bomba bate sem parar ${since(facts.since)}: oito mudanças ou mais num minuto.`,
      consequence: 'Os contactos gastam-se e aquecem: perigo de incêndio.',
      firstAction:
        'Tire a bomba da tomada antes de alguém abrir a caixa, e volte a ligá-la no fim; na rede elétrica só mexe um eletricista habilitado.',
    }),
    'line-bad': (facts) => ({
      cause: `A linha para a placa está má ${since(facts.since)}: ${share(facts)}.`,
      consequence: 'O que chega estragado é deitado fora; se piorar, o computador perde a placa.',
      firstAction:
        'Veja o cabo da placa: as fichas, o comprimento, a distância ao cabo de rede da bomba. Mude de lugar o da placa, não o da bomba.',
    }),
    'host-hot': (facts) => ({
      cause: `O chip do computador está quente de mais ${since(facts.since)}: agora ${facts.celsius.toFixed(0)} °C.`,
      consequence: 'Pode ficar lento, ou parar.',
      firstAction: 'Com as mãos secas: dê-lhe sombra e ar, limpe-lhe o pó, e não lhe dê outro trabalho.',
    }),
  },
  briefs: {
    'tank-falls': TANK_FALLS.pt.brief,
    'tank-full': TANK_FULL.pt.brief,
    'relay-chatters': (facts) => ({
      what: `O RELÉ BATE SEM PARAR ${since(facts.since)}: gasta-se e aquece, perigo de incêndio`,
      act: 'Tire a ficha antes de abrir a caixa; rede: só um eletricista',
    }),
    'line-bad': (facts) => ({
      what: `Linha para a placa má: ${share(facts)}`,
      act: 'Veja o cabo: fichas, comprimento, distância ao cabo da bomba',
    }),
    'host-hot': (facts) => ({
      what: `Computador quente de mais ${since(facts.since)}: ${facts.celsius.toFixed(0)} °C`,
      act: 'Mãos secas; dê-lhe sombra e ar, limpe-lhe o pó',
    }),
  },
});
