import type { FactsOfKind } from '../facts.ts';
import { decimalComma, type PartTexts } from './language.ts';
import { strengthOffBrief, strengthOffCard } from './strength-off.ts';
import { RETURN_LOWER } from './return-lower.ts';
import { TANK_FALLS } from './tank-falls.ts';
import { TANK_FULL } from './tank-full.ts';

const share = ({ oneIn }: FactsOfKind['line-bad']): string =>
  oneIn < 2 ? 'quase tudo chega estragado' : `uma mensagem em ${oneIn} chega estragada`;

const charge = ({ percent, volts }: FactsOfKind['host-battery']): string =>
  volts === null ? `${percent} %` : `${percent} %, ${decimalComma(volts.toFixed(1))} V`;

/** Alarms about parts that fail before the water does. */
export const portugueseParts: PartTexts = (since) => ({
  cards: {
    'tank-falls': TANK_FALLS.pt.card,
    'tank-full': TANK_FULL.pt.card,
    'strength-off': strengthOffCard('pt', since),
    'return-lower': RETURN_LOWER.pt.card,
    'relay-chatters': (facts) => ({
      cause: `O contacto do relé da bomba bate sem parar ${since(facts.since)}: oito mudanças ou mais num minuto.`,
      consequence: 'Os contactos gastam-se e aquecem: perigo de incêndio.',
      firstAction:
        'Tire a bomba da tomada antes de alguém abrir a caixa, e volte a ligá-la no fim; na rede elétrica só mexe um eletricista habilitado.',
    }),
    'float-unmoved': (facts) => ({
      cause: `A boia do depósito não se mexe há ${facts.days} dias.`,
      consequence: 'Uma boia presa parece igual, e não diria que o depósito fica seco.',
      firstAction:
        'Tire a bomba da tomada, levante e baixe a boia à mão, veja se o estado a segue, e volte a ligar a bomba.',
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
    'host-large': (facts) => ({
      cause: `O programa do computador ocupa memória de mais ${since(facts.since)}: agora ${facts.megabytes.toFixed(0)} MB.`,
      consequence:
        facts.renewed === 'by-itself'
          ? 'Termina sozinho entre duas regas, de noite se puder esperar, e arranca logo de novo.'
          : 'Pode ser cortado a meio de uma rega.',
      firstAction:
        facts.renewed === 'by-itself'
          ? 'Por agora nada a fazer; se voltar, comunique-o como defeito.'
          : 'Termine-o entre duas regas e arranque-o de novo; depois comunique-o como defeito.',
    }),
    'host-battery': (facts) => ({
      cause: `A bateria do computador está a gastar-se ${since(facts.since)}: agora ${charge(facts)}.`,
      consequence:
        'Quando acabar, o computador deixa de funcionar e de chamar: uma placa com tabela própria continua a regar, uma placa comum não.',
      firstAction:
        'Com as mãos secas veja a alimentação dele e se há corrente; carregue ou troque a bateria.',
    }),
  },
  briefs: {
    'tank-falls': TANK_FALLS.pt.brief,
    'tank-full': TANK_FULL.pt.brief,
    'strength-off': strengthOffBrief('pt'),
    'return-lower': RETURN_LOWER.pt.brief,
    'relay-chatters': (facts) => ({
      what: `O RELÉ BATE SEM PARAR ${since(facts.since)}: gasta-se e aquece, perigo de incêndio`,
      act: 'Tire a ficha antes de abrir a caixa; rede: só um eletricista',
    }),
    'float-unmoved': (facts) => ({
      what: `A boia do depósito não se mexe há ${facts.days} dias`,
      act: 'Com a bomba desligada, levante-a à mão e veja se o estado a segue',
    }),
    'line-bad': (facts) => ({
      what: `Linha para a placa má: ${share(facts)}`,
      act: 'Veja o cabo: fichas, comprimento, distância ao cabo da bomba',
    }),
    'host-hot': (facts) => ({
      what: `Computador quente de mais ${since(facts.since)}: ${facts.celsius.toFixed(0)} °C`,
      act: 'Mãos secas; dê-lhe sombra e ar, limpe-lhe o pó',
    }),
    'host-large': (facts) => ({
      what: `O programa ocupa memória de mais: ${facts.megabytes.toFixed(0)} MB`,
      act:
        facts.renewed === 'by-itself'
          ? 'Arranca sozinho de novo entre regas; comunique-o se voltar'
          : 'Termine-o entre duas regas e arranque-o de novo',
    }),
    'host-battery': (facts) => ({
      what: `Bateria do computador ${charge(facts)}; vazia, ninguém chama, só placa com tabela rega`,
      act: 'Mãos secas; veja a alimentação',
    }),
  },
});
