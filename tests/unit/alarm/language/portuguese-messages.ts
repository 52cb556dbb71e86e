/** As in `message-table`. */
export const PORTUGUESE_MESSAGES: Readonly<Record<string, string>> = {
  'missed, no mains':
    '[128] Ribeira: SEM LUZ, sem agua desde as 13:42. Bench 2 pode murchar às 14:40. Veja o diferencial; rede: so eletricista; regue à mao.',
  'missed, no contact':
    '[126] Ribeira: Relé nao fechou, sem agua desde as 13:42. Bench 2 pode murchar às 14:40. Veja placa e relé; ligue a bomba pela ficha.',
  'missed, no current':
    '[131] Ribeira: Bomba sem corrente, sem agua desde as 13:42. Bench 2 pode murchar às 14:40. Esta na tomada? Fusivel? Rede: so eletricista.',
  'missed, tank fell':
    '[119] Ribeira: Deposito baixou, sem agua desde as 13:42. Bench 2 pode murchar às 14:40. Tire a ficha e procure um tubo solto.',
  'missed, pump ran':
    '[123] Ribeira: Bomba trabalha, sem agua desde as 13:42. Bench 2 pode murchar às 14:40. Tire a ficha; veja filtro, entrada, tubos.',
  'missed, switched on':
    '[123] Ribeira: Bomba ligada, sem agua desde as 13:42. Bench 2 pode murchar às 14:40. Esta na tomada? Tire a ficha; veja o filtro.',
  'mains lost':
    '[158] Ribeira: SEM LUZ desde as 13:55. Bench 2 pode murchar às 14:40. Veja o diferencial; rede: so eletricista; regue à mao. 1.o Bench 2: 3,5 L/calha a cada 15 min.',
  'mains doubtful':
    '[120] Ribeira: Contacto da rede diz sem luz desde as 13:55, duvidoso. Bench 2 pode murchar às 14:40. Veja se a bomba trabalha.',
  'board silent':
    '[125] Ribeira: PLACA NAO RESPONDE desde as 13:56, sem regas. Bench 2 pode murchar às 14:40. Veja cabo e placa; o temporizador rega?',
  'board silent, keeps':
    '[128] Ribeira: Placa nao responde desde as 13:56, deve regar sozinha. Se nao, Bench 2 pode murchar às 14:40. Veja agua e temporizador.',
  'pump runs on':
    '[116] Ribeira: BOMBA NAO PARA desde as 13:55, deposito pode esvaziar ou transbordar. Tire-lhe a ficha, depois veja o relé.',
  'tank low':
    '[127] Ribeira: DEPOSITO BAIXO desde as 13:52, so regas minimas. Bench 2 pode murchar às 14:40. Tire a ficha, encha-o ou solte a boia.',
  'float suspect':
    '[128] Ribeira: Boia marca baixo desde as 13:27 mas volta agua. Bench 2 pode murchar às 14:40. Tire a ficha, depois experimente a boia.',
  'tank falls':
    '[136] Ribeira: DEPOSITO BAIXA 48 L/h a mais, nao chega dentro de 3 h 11 min (17:08). Longe de tomadas molhadas; veja chao, calhas, enchimento.',
  'tank falls, too low':
    '[110] Ribeira: DEPOSITO BAIXA 60 L/h a mais, ja nao chega. Longe de tomadas molhadas; veja chao, calhas, enchimento.',
  'tank falls, not soon':
    '[96] Ribeira: DEPOSITO BAIXA 16 L/h a mais. Longe de tomadas molhadas; veja chao, calhas, enchimento.',
  'tank full':
    '[119] Ribeira: DEPOSITO CHEIO, 598 de 600 L, pode transbordar. Longe de tomadas molhadas; feche o enchimento, veja a valvula.',
  'too strong':
    '[135] Ribeira: SOLUÇAO FORTE DE MAIS: 2,60 mS/cm, usual 1,60. Veja com outro medidor, depois troque 195 L por agua aos poucos; luvas, oculos.',
  'too strong, room':
    '[132] Ribeira: SOLUÇAO FORTE DE MAIS: 2,60 mS/cm, usual 1,60. Veja com outro medidor, depois junte 64 L de agua aos poucos; luvas, oculos.',
  'too strong, salty top-up':
    '[133] Ribeira: SOLUÇAO FORTE DE MAIS: 2,60 mS/cm, usual 1,60. Veja com outro medidor, depois dilua, nao com a do enchimento; luvas, oculos.',
  'too strong, back':
    '[126] Ribeira: A solucao volta a ler 1,70 mS/cm, usual 1,60. Veja com outro medidor, depois nao junte nada por agora; luvas, oculos.',
  'too weak':
    '[131] Ribeira: SOLUÇAO FRACA DE MAIS: 0,90 mS/cm, usual 1,60. Veja com outro medidor, depois junte solucao-mae aos poucos; luvas, oculos.',
  'leak and overflow':
    '[139] Ribeira: AGUA ONDE NAO DEVIA: sensor de fugas e boia de transbordo estao molhados. Longe de tomadas molhadas; retorno entupido? Tubo solto?',
  hold: '[131] Ribeira: Sem rega desde as 13:37: paragem pedida por Ana. Bench 2 pode murchar às 14:40. Maos fora da agua, depois acabe a paragem.',
  'dry, float low':
    '[149] Ribeira: SEM REGA desde as 13:37: a boia do deposito marca baixo. Bench 2 pode murchar às 14:40. Regue à mao. 1.o Bench 2: 3,5 L/calha a cada 15 min.',
  'dry, board keeps':
    '[128] Ribeira: Rega nao vista desde as 13:37, a placa devia regar. Se nao, Bench 2 pode murchar às 14:40. Se nao ha agua, regue à mao.',
  'return lower':
    '[135] Ribeira: Retorno 21 % mais fraco que antes (33 de 41 L/min). Tire a ficha antes de mexer; numa rega veja cada entrada, depois o filtro.',
  'weak return':
    '[102] Ribeira: Rega fraca: voltam 13 L/min, o normal sao 40. Tire a ficha, limpe o filtro, veja as entradas.',
  'flow silent':
    '[114] Ribeira: Sensor do retorno sem confianca desde as 13:47, uma rega falhada pode nao se ver. Veja o sensor e o cabo.',
  'flow stuck':
    '[124] Ribeira: Sensor do retorno mostra agua desde as 13:56 com a bomba parada. Corre agua? Se nao, tire a ficha e solte o sensor.',
  clock:
    '[122] Ribeira: O relogio do computador deu um salto, regas como nas horas mais quentes. Acerte data e hora, depois de por visto.',
  'air old':
    '[101] Ribeira: Sem temperatura do ar desde as 13:45, o plano rega a mais. Veja o termometro do ar e o cabo.',
  'channel dead':
    '[115] Ribeira: Ninguém contactavel por modem desde as 13:42, um alarme pode nao chegar. Veja-o, e va olhando pela estufa.',
  'channels dead':
    '[115] Ribeira: Ninguém contactavel por modem desde as 13:42, um alarme pode nao chegar. Veja-o, e va olhando pela estufa.',
  'not recording':
    '[92] Ribeira: Nada é registado desde as 13:42. Veja se o disco do computador esta cheio ou gasto.',
  'slow disk':
    '[93] Ribeira: Disco lento, 9 registos à espera. Veja se o disco do computador esta cheio ou gasto.',
  'safe mode':
    '[99] Ribeira: Computador no minimo: "three starts in 10 min". Desfaca a ultima mudanca, depois reinicie.',
  'past late':
    '[109] Ribeira: Registo ainda fechado: paragens desconhecidas. Maos na agua: tire a ficha. A bomba so espera 10 min.',
  'past lost':
    '[100] Ribeira: Paragens e alarmes de antes perdidos. Maos na agua: tire a ficha. A bomba so espera 10 min.',
  'clock fast': '[78] Ribeira: Relogio da placa anda 7 % mais depressa. Troque a placa quando puder.',
  'clock slow': '[77] Ribeira: Relogio da placa anda 3 % mais devagar. Troque a placa quando puder.',
  'float unmoved':
    '[118] Ribeira: A boia do deposito nao se mexe ha 30 dias. Com a bomba desligada, levante-a à mao e veja se o estado a segue.',
  'relay chatters':
    '[147] Ribeira: O RELÉ BATE SEM PARAR desde as 13:55: gasta-se e aquece, perigo de incendio. Tire a ficha antes de abrir a caixa; rede: so um eletricista.',
  'line bad':
    '[129] Ribeira: Linha para a placa ma: uma mensagem em 12 chega estragada. Veja o cabo: fichas, comprimento, distancia ao cabo da bomba.',
  'line all bad':
    '[121] Ribeira: Linha para a placa ma: quase tudo chega estragado. Veja o cabo: fichas, comprimento, distancia ao cabo da bomba.',
  'host hot':
    '[104] Ribeira: Computador quente de mais desde as 13:42: 78 C. Maos secas; de-lhe sombra e ar, limpe-lhe o po.',
  'host large':
    '[110] Ribeira: O programa ocupa memoria de mais: 214 MB. Arranca sozinho de novo entre regas; comunique-o se voltar.',
  'host large, by hand':
    '[99] Ribeira: O programa ocupa memoria de mais: 214 MB. Termine-o entre duas regas e arranque-o de novo.',
  'host battery':
    '[124] Ribeira: Bateria do computador 18 %, 11,4 V; vazia, ninguém chama, so placa com tabela rega. Maos secas; veja a alimentacao.',
};
