import type { LanguageCode } from '../../farm/languages-spoken.ts';
import type { Ahead, FactsOfKind } from '../facts.ts';
import { spanOf, type Brief, type Told } from './language.ts';

type Facts = FactsOfKind['tank-falls'];

/** `3 h 11 min (17:08)` */
const pace = ({ minutes, from }: Ahead): string =>
  from === null ? spanOf(minutes) : `${spanOf(minutes)} (${from})`;

/** One of three sentences: far off, so already, or how soon. */
const lowWords = (
  { low }: Facts,
  words: { readonly far: string; readonly now: string; readonly soon: (span: string) => string },
): string => {
  if (low === null) return words.far;
  return low.minutes < 1 ? words.now : words.soon(pace(low));
};

/** A tank that falls by more than plants drink, or by what they drink with too little topping it up. */
export const TANK_FALLS: Readonly<
  Record<LanguageCode, { readonly card: (facts: Facts) => Told; readonly brief: (facts: Facts) => Brief }>
> = {
  en: {
    card: (facts) => ({
      cause:
        facts.beyondLitresPerHour === null
          ? 'The tank is not topped up, or too slowly: it goes down as the plants drink.'
          : `The tank falls by at least ${facts.beyondLitresPerHour} L an hour more than the plants can drink.`,
      consequence: lowWords(facts, {
        far: 'At this pace it is not too low for a flood within 20 hours.',
        now: 'It may be too low for a whole flood already.',
        soon: (span) => `At this pace it is too low for a whole flood in about ${span}.`,
      }),
      firstAction:
        facts.beyondLitresPerHour === null
          ? 'Pull the plug before you reach in, and put it back after. Top it up by hand; where a valve does that, look at the valve and its supply.'
          : 'Keep off wet sockets. Look for water on the floor, then at the drain end of the channels, then at the top-up. If all is dry: is every planted bench in the farm file?',
    }),
    brief: (facts) => ({
      what: `${facts.beyondLitresPerHour === null ? 'TANK NOT TOPPED UP' : `TANK FALLS ${facts.beyondLitresPerHour} L/h beyond what plants drink`}${lowWords(
        facts,
        {
          far: '',
          now: ', too low already',
          soon: (span) => `, too low in ${span}`,
        },
      )}`,
      act:
        facts.beyondLitresPerHour === null
          ? 'Pull the plug, top it up, look at valve and supply'
          : 'Keep off wet sockets; look at floor, drain end, top-up',
    }),
  },
  pt: {
    card: (facts) => ({
      cause:
        facts.beyondLitresPerHour === null
          ? 'O depósito não recebe água, ou recebe pouca: baixa com o que as plantas bebem.'
          : `O depósito baixa pelo menos ${facts.beyondLitresPerHour} L por hora a mais do que as plantas podem beber.`,
      consequence: lowWords(facts, {
        far: 'A este ritmo chega para regar nas próximas 20 horas.',
        now: 'Pode já não chegar para uma rega inteira.',
        soon: (span) => `A este ritmo deixa de chegar para uma rega inteira dentro de cerca de ${span}.`,
      }),
      firstAction:
        facts.beyondLitresPerHour === null
          ? 'Tire a bomba da tomada antes de meter as mãos, e volte a ligá-la no fim. Encha-o à mão; se há uma válvula que o enche, veja a válvula e a água que lhe chega.'
          : 'Não se chegue a tomadas molhadas. Procure água no chão, depois veja a saída das calhas, depois o enchimento. Se tudo estiver seco: o ficheiro da exploração tem todas as bancadas plantadas?',
    }),
    brief: (facts) => ({
      what: `${facts.beyondLitresPerHour === null ? 'DEPÓSITO SEM ENCHIMENTO' : `DEPÓSITO BAIXA ${facts.beyondLitresPerHour} L/h a mais`}${lowWords(
        facts,
        {
          far: '',
          now: ', já não chega',
          soon: (span) => `, não chega dentro de ${span}`,
        },
      )}`,
      act:
        facts.beyondLitresPerHour === null
          ? 'Tire a ficha, encha-o, veja a válvula e a água dela'
          : 'Longe de tomadas molhadas; veja chão, calhas, enchimento',
    }),
  },
  es: {
    card: (facts) => ({
      cause:
        facts.beyondLitresPerHour === null
          ? 'El depósito no recibe agua, o recibe poca: baja con lo que beben las plantas.'
          : `El depósito baja al menos ${facts.beyondLitresPerHour} L por hora más de lo que las plantas pueden beber.`,
      consequence: lowWords(facts, {
        far: 'A este ritmo alcanza para regar en las próximas 20 horas.',
        now: 'Puede que ya no alcance para un riego entero.',
        soon: (span) => `A este ritmo deja de alcanzar para un riego entero en unos ${span}.`,
      }),
      firstAction:
        facts.beyondLitresPerHour === null
          ? 'Desenchufe la bomba antes de meter las manos, y vuelva a enchufarla al final. Llénelo a mano; si lo llena una válvula, mire la válvula y el agua que le llega.'
          : 'No se acerque a enchufes mojados. Busque agua en el suelo, luego mire la salida de los canales y el llenado. Si todo está seco: ¿tiene el archivo de la finca todas las mesas plantadas?',
    }),
    brief: (facts) => ({
      what: `${facts.beyondLitresPerHour === null ? 'DEPÓSITO SIN LLENADO' : `DEPÓSITO BAJA ${facts.beyondLitresPerHour} L/h de más`}${lowWords(
        facts,
        {
          far: '',
          now: ', ya no alcanza',
          soon: (span) => `, no alcanza en ${span}`,
        },
      )}`,
      act:
        facts.beyondLitresPerHour === null
          ? 'Desenchufe, llénelo, mire la válvula y su agua'
          : 'Lejos de enchufes mojados; mire suelo, canales, llenado',
    }),
  },
  fr: {
    card: (facts) => ({
      cause:
        facts.beyondLitresPerHour === null
          ? "La cuve ne reçoit pas d'eau, ou trop peu : elle baisse à mesure que les plantes boivent."
          : `La cuve baisse d'au moins ${facts.beyondLitresPerHour} L par heure de plus que ce que les plantes peuvent boire.`,
      consequence: lowWords(facts, {
        far: 'À ce rythme elle suffit pour arroser pendant les 20 prochaines heures.',
        now: 'Elle ne suffit peut-être déjà plus pour un arrosage entier.',
        soon: (span) => `À ce rythme elle ne suffit plus pour un arrosage entier dans environ ${span}.`,
      }),
      firstAction:
        facts.beyondLitresPerHour === null
          ? "Débranchez la pompe avant de mettre les mains dans l'eau, et rebranchez-la ensuite. Remplissez la cuve à la main ; si une vanne le fait, voyez la vanne et son arrivée d'eau."
          : "N'approchez pas des prises mouillées. Cherchez de l'eau au sol, puis voyez la sortie des gouttières, puis le remplissage. Si tout est sec : le fichier de l'exploitation a-t-il toutes les tables plantées ?",
    }),
    brief: (facts) => ({
      what: `${facts.beyondLitresPerHour === null ? 'CUVE NON REMPLIE' : `LA CUVE PERD ${facts.beyondLitresPerHour} L/h de trop`}${lowWords(
        facts,
        {
          far: '',
          now: ', ne suffit plus',
          soon: (span) => `, ne suffit plus dans ${span}`,
        },
      )}`,
      act:
        facts.beyondLitresPerHour === null
          ? 'Débranchez, remplissez-la, voyez la vanne et son eau'
          : 'Loin des prises mouillées ; voir sol, gouttières, remplissage',
    }),
  },
};
