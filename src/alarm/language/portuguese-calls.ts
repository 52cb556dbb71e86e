import { countsText, type CallWords } from './call-language.ts';
import { decimalComma } from './language.ts';

const COUNTS = {
  weak: (count: number) => `${count} ${count === 1 ? 'fraca' : 'fracas'}`,
  unproven: (count: number) => `${count} por confirmar`,
  missed: (count: number) => `${count} ${count === 1 ? 'falhada' : 'falhadas'}`,
  withheld: (count: number) => `${count} ${count === 1 ? 'retida' : 'retidas'}`,
};

export const PORTUGUESE_CALLS: CallWords = {
  names: {
    'missed-flood': 'rega falhada',
    'weak-flow': 'rega fraca',
    'return-lower': 'retorno mais fraco',
    'mains-lost': 'sem luz',
    'pump-runs-on': 'bomba não para',
    'tank-low': 'depósito baixo',
    'float-suspect': 'boia duvidosa',
    'tank-falls': 'depósito a baixar',
    'tank-full': 'depósito cheio até à borda',
    'strength-off': 'força fora da faixa',
    'water-on-floor': 'água no chão',
    'flow-sensor-silent': 'sensor de caudal mudo',
    'flow-sensor-stuck': 'sensor de caudal preso',
    'clock-stepped': 'relógio em dúvida',
    'no-good-temperature': 'sem temperatura de confiança',
    'hold-is-long': 'paragem longa',
    'drying-out': 'bancadas a secar',
    'board-silent': 'placa não responde',
    'channel-dead': 'uma via de aviso falhou',
    'not-recording': 'nada é registado',
    'safe-mode': 'modo mínimo',
    'past-unread': 'o que se sabia não foi lido',
    'clock-drift': 'relógios não batem certo',
    'relay-chatters': 'relé que bate',
    'float-unmoved': 'boia parada',
    'line-bad': 'linha para a placa má',
    'host-hot': 'computador quente',
    'host-large': 'computador sem memória',
    'host-battery': 'bateria do computador',
  },
  openings: { raised: '', again: 'Continua: ', escalated: 'Ainda ninguém respondeu: ', returned: 'Acabou: ' },
  briefOpenings: { raised: '', again: 'Continua: ', escalated: 'Sem resposta: ', returned: 'Acabou: ' },
  comesAndGoes: 'Vai e volta.',
  lists: { with: 'Também:', still: 'Continua:', over: 'Acabou:', first: 'Começou por:' },
  allWell: 'Está tudo bem.',
  floods: (counts) =>
    `${counts.confirmed} ${counts.confirmed === 1 ? 'rega confirmada' : 'regas confirmadas'} em 24 h, ${countsText(counts, COUNTS)}.`,
  tank: (tank) =>
    typeof tank === 'number'
      ? `Depósito ${tank.toFixed(0)} L.`
      : `Depósito ${tank === 'well' ? 'bem' : 'baixo'}.`,
  strength: (strength) => `Força ${decimalComma(strength.toFixed(1))} mS/cm.`,
  withoutPump: (span) => `Sem a bomba: ${span === null ? 'mais de um dia' : `cerca de ${span}`}.`,
};
