/** Every kind of alarm as one text message, by language: the places it takes in brackets, and the text. */
export const MESSAGES: Readonly<Record<'en' | 'pt' | 'es' | 'fr', Readonly<Record<string, string>>>> = {
  en: {
    'missed, no mains':
      '[128] Ribeira: NO MAINS, no water since 13:42. Bench 2 may wilt from 14:40. Fuse and RCD first; mains: licensed person; water by hand.',
    'missed, no contact':
      '[129] Ribeira: Relay did not close, no water since 13:42. Bench 2 may wilt from 14:40. See board and relay; run pump from its own plug.',
    'missed, no current':
      '[129] Ribeira: Pump draws no current, no water since 13:42. Bench 2 may wilt from 14:40. Plugged in? Fuse? RCD? Mains: licensed person.',
    'missed, tank fell':
      '[121] Ribeira: Tank fell, no water since 13:42. Bench 2 may wilt from 14:40. Pull the plug, then look for a pipe that came off.',
    'missed, pump ran':
      '[119] Ribeira: Pump ran, no water since 13:42. Bench 2 may wilt from 14:40. Pull the plug, then look at filter, inlet, pipes.',
    'missed, switched on':
      '[119] Ribeira: Pump on, no water since 13:42. Bench 2 may wilt from 14:40. Plugged in? Pull the plug, then see filter, inlet.',
    'mains lost':
      '[157] Ribeira: MAINS LOST since 13:55. Bench 2 may wilt from 14:40. Fuse and RCD; mains: licensed person; water by hand. First Bench 2: 3.5 L/channel every 15 min.',
    'mains doubtful':
      '[125] Ribeira: Mains contact reads lost since 13:55, doubtful. Bench 2 may wilt from 14:40. See if the pump runs, then the contact.',
    'board silent':
      '[117] Ribeira: BOARD SILENT since 13:56, no floods. Bench 2 may wilt from 14:40. See cable and board; does the timer flood?',
    'board silent, keeps':
      '[131] Ribeira: Board silent since 13:56, should flood by itself. If not, Bench 2 may wilt from 14:40. See if benches are wet, then timer.',
    'pump runs on':
      '[116] Ribeira: PUMP RUNS though switched off since 13:55, tank may run dry or over. Pull its plug, then look at the relay.',
    'tank low':
      '[118] Ribeira: TANK LOW since 13:52, only sips. Bench 2 may wilt from 14:40. Pull the plug, fill the tank or free the float.',
    'float suspect':
      '[123] Ribeira: Float reads low since 13:27 but water comes back. Bench 2 may wilt from 14:40. Pull the plug, then test the float.',
    'tank falls':
      '[139] Ribeira: TANK FALLS 48 L/h beyond what plants drink, too low in 3 h 11 min (17:08). Keep off wet sockets; look at floor, drain end, top-up.',
    'tank falls, too low':
      '[125] Ribeira: TANK FALLS 60 L/h beyond what plants drink, too low already. Keep off wet sockets; look at floor, drain end, top-up.',
    'tank falls, not soon':
      '[108] Ribeira: TANK FALLS 16 L/h beyond what plants drink. Keep off wet sockets; look at floor, drain end, top-up.',
    'tank full':
      '[102] Ribeira: TANK FULL, 598 of 600 L, may run over. Keep off wet sockets; close the top-up, see its valve.',
    'too strong':
      '[125] Ribeira: SOLUTION TOO STRONG: 2.60 mS/cm, usual 1.60. Try another meter, then swap 195 L for water in steps; gloves, goggles.',
    'too strong, room':
      '[122] Ribeira: SOLUTION TOO STRONG: 2.60 mS/cm, usual 1.60. Try another meter, then add 64 L of water in steps; gloves, goggles.',
    'too strong, salty top-up':
      '[123] Ribeira: SOLUTION TOO STRONG: 2.60 mS/cm, usual 1.60. Try another meter, then dilute, not with the top-up; gloves, goggles.',
    'too strong, back':
      '[115] Ribeira: Solution reads 1.70 mS/cm again, usual 1.60. Try another meter, then add nothing for now; gloves, goggles.',
    'too weak':
      '[118] Ribeira: SOLUTION TOO WEAK: 0.90 mS/cm, usual 1.60. Try another meter, then add stock in small steps; gloves, goggles.',
    'leak and overflow':
      '[131] Ribeira: WATER WHERE NONE SHOULD BE: leak sensor and overflow float are both wet. Keep off wet sockets; blocked return? Loose pipe?',
    hold: '[115] Ribeira: No flood since 13:37: held by Ana. Bench 2 may wilt from 14:40. Hands out of the water, then end the hold.',
    'dry, float low':
      '[149] Ribeira: NO FLOOD since 13:37: the tank float reads low. Bench 2 may wilt from 14:40. Carry water by hand. First Bench 2: 3.5 L/channel every 15 min.',
    'dry, board keeps':
      '[133] Ribeira: No flood seen since 13:37, board should flood. If not, Bench 2 may wilt from 14:40. See if benches are wet, else water them.',
    'return lower':
      '[134] Ribeira: Return 21 % lower than it was (33 of 41 L/min). Pull the plug before reaching in; see each inlet in a flood, then the filter.',
    'weak return':
      '[103] Ribeira: Weak flood: return flow 13 L/min, usually 40. Pull the plug, clean the filter, see the inlets.',
    'flow silent':
      '[117] Ribeira: Return flow sensor not believed since 13:47, a missed flood may go unseen. Look at the sensor and its cable.',
    'flow stuck':
      '[131] Ribeira: Return sensor shows water since 13:56 though the pump rests. See if water runs; if not, pull the plug and mend the sensor.',
    clock:
      '[128] Ribeira: The clock of the host has jumped, floods are those of the hottest hours. Set its date and time right, then acknowledge.',
    'air old':
      '[118] Ribeira: No good air temperature since 13:45, the plan runs at its wet end. Look at the air thermometer and its cable.',
    'channel dead':
      '[113] Ribeira: Nobody reached by modem since 13:42, an alarm may reach nobody. Look at it, and keep an eye on the shed.',
    'channels dead':
      '[113] Ribeira: Nobody reached by modem since 13:42, an alarm may reach nobody. Look at it, and keep an eye on the shed.',
    'not recording':
      '[87] Ribeira: Nothing recorded since 13:42. See if the disk of the host is full or worn out.',
    'slow disk': '[84] Ribeira: Disk slow, 9 entries wait. See if the disk of the host is full or worn out.',
    'safe mode':
      '[110] Ribeira: Host runs with as little as it can: three starts in 10 min. Undo the last change, then start it anew.',
    'clock fast':
      "[92] Ribeira: Clock of the board runs 7 % faster than the host's. Replace the board when you can.",
    'clock slow':
      "[92] Ribeira: Clock of the board runs 3 % slower than the host's. Replace the board when you can.",
    'float unmoved':
      '[115] Ribeira: The tank float has not moved for 30 days. Pump unplugged, lift it by hand and look whether status follows.',
    'relay chatters':
      '[141] Ribeira: RELAY CHATTERS since 13:55: contacts wear and get hot, risk of fire. Pull the plug before the box is opened; mains: licensed person.',
    'line bad':
      "[128] Ribeira: Line to the board bad: one message in 12 comes spoilt. See its cable: plugs, length, distance to the pump's mains lead.",
    'line all bad':
      "[127] Ribeira: Line to the board bad: nearly all of it comes spoilt. See its cable: plugs, length, distance to the pump's mains lead.",
    'host hot':
      '[92] Ribeira: Host too hot since 13:42: 78 C. Dry hands; give it shade and air, clear it of dust.',
    'host large':
      '[111] Ribeira: Host takes too much memory: 214 MB. It starts itself anew between floods; report it if it comes again.',
    'host large, by hand':
      '[89] Ribeira: Host takes too much memory: 214 MB. End it between two floods and start it anew.',
    'host battery':
      '[124] Ribeira: Host battery 18 %, 11.4 V; flat, it calls nobody, only a keeper floods on. Dry hands; see its supply and the mains.',
  },
  pt: {
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
  },
  es: {
    'missed, no mains':
      '[129] Ribeira: SIN LUZ, sin agua desde las 13:42. Bench 2 puede mustiarse a las 14:40. Vea diferencial; red: electricista; agua a mano.',
    'missed, no contact':
      '[123] Ribeira: Relé no cierra, sin agua desde las 13:42. Bench 2 puede mustiarse a las 14:40. Vea placa y relé; enchufe la bomba.',
    'missed, no current':
      '[130] Ribeira: Bomba no consume, sin agua desde las 13:42. Bench 2 puede mustiarse a las 14:40. ¿Enchufada? ¿Fusible? Red: electricista.',
    'missed, tank fell':
      '[125] Ribeira: Bajo el deposito, sin agua desde las 13:42. Bench 2 puede mustiarse a las 14:40. Desenchufe y busque un tubo suelto.',
    'missed, pump ran':
      '[128] Ribeira: Bomba en marcha, sin agua desde las 13:42. Bench 2 puede mustiarse a las 14:40. Desenchufe; vea filtro, entrada, tubos.',
    'missed, switched on':
      '[128] Ribeira: Bomba encendida, sin agua desde las 13:42. Bench 2 puede mustiarse a las 14:40. ¿Enchufada? Desenchufe y vea el filtro.',
    'mains lost':
      '[157] Ribeira: SIN LUZ desde las 13:55. Bench 2 puede mustiarse a las 14:40. Vea diferencial; red: electricista; agua a mano. 1.o Bench 2: 3,5 L/canal cada 15 min.',
    'mains doubtful':
      '[119] Ribeira: Contacto de red dice sin luz desde las 13:55, dudoso. Bench 2 puede mustiarse a las 14:40. ¿Funciona la bomba?',
    'board silent':
      '[130] Ribeira: PLACA NO RESPONDE desde las 13:56, sin riegos. Bench 2 puede mustiarse a las 14:40. Vea la placa; ¿riega el temporizador?',
    'board silent, keeps':
      '[124] Ribeira: Placa no responde desde las 13:56, deberia regar sola. Si no, Bench 2 puede mustiarse a las 14:40. Vea si hay agua.',
    'pump runs on':
      '[114] Ribeira: LA BOMBA NO PARA desde las 13:55, el deposito puede vaciarse o rebosar. Desenchufela, luego mire el relé.',
    'tank low':
      '[130] Ribeira: DEPOSITO BAJO desde las 13:52, riegos minimos. Bench 2 puede mustiarse a las 14:40. Desenchufe, llénelo o suelte la boya.',
    'float suspect':
      '[129] Ribeira: Boya marca bajo desde las 13:27 pero vuelve agua. Bench 2 puede mustiarse a las 14:40. Desenchufe, luego pruebe la boya.',
    'tank falls':
      '[128] Ribeira: DEPOSITO BAJA 48 L/h de mas, no alcanza en 3 h 11 min (17:08). Lejos de enchufes mojados; mire suelo, canales, llenado.',
    'tank falls, too low':
      '[109] Ribeira: DEPOSITO BAJA 60 L/h de mas, ya no alcanza. Lejos de enchufes mojados; mire suelo, canales, llenado.',
    'tank falls, not soon':
      '[94] Ribeira: DEPOSITO BAJA 16 L/h de mas. Lejos de enchufes mojados; mire suelo, canales, llenado.',
    'tank full':
      '[116] Ribeira: DEPOSITO LLENO, 598 de 600 L, puede rebosar. Lejos de enchufes mojados; cierre el llenado, mire la valvula.',
    'too strong':
      '[142] Ribeira: SOLUCION DEMASIADO FUERTE: 2,60 mS/cm, habitual 1,60. Mida con otro medidor, luego cambie 195 L por agua poco a poco; guantes, gafas.',
    'too strong, room':
      '[139] Ribeira: SOLUCION DEMASIADO FUERTE: 2,60 mS/cm, habitual 1,60. Mida con otro medidor, luego añada 64 L de agua poco a poco; guantes, gafas.',
    'too strong, salty top-up':
      '[138] Ribeira: SOLUCION DEMASIADO FUERTE: 2,60 mS/cm, habitual 1,60. Mida con otro medidor, luego diluya, no con la del llenado; guantes, gafas.',
    'too strong, back':
      '[132] Ribeira: La solucion marca de nuevo 1,70 mS/cm, habitual 1,60. Mida con otro medidor, luego no añada nada por ahora; guantes, gafas.',
    'too weak':
      '[140] Ribeira: SOLUCION DEMASIADO DÉBIL: 0,90 mS/cm, habitual 1,60. Mida con otro medidor, luego añada solucion madre poco a poco; guantes, gafas.',
    'leak and overflow':
      '[130] Ribeira: AGUA DONDE NO DEBE: sensor de fugas y boya de rebose mojados. Lejos de enchufes mojados; ¿retorno atascado? ¿Tubo suelto?',
    hold: '[131] Ribeira: Sin riego desde las 13:37: parada pedida por Ana. Bench 2 puede mustiarse a las 14:40. Manos fuera; luego acabe la parada.',
    'dry, float low':
      '[158] Ribeira: SIN RIEGO desde las 13:37: la boya del deposito marca bajo. Bench 2 puede mustiarse a las 14:40. Riegue a mano. 1.o Bench 2: 3,5 L/canal cada 15 min.',
    'dry, board keeps':
      '[125] Ribeira: Riego no visto desde las 13:37, deberia regar la placa. Si no, Bench 2 puede mustiarse a las 14:40. Vea si hay agua.',
    'return lower':
      '[130] Ribeira: Retorno 21 % menor que antes (33 de 41 L/min). Desenchufe antes de tocar; en un riego mire cada entrada, luego el filtro.',
    'weak return':
      '[105] Ribeira: Riego flojo: vuelven 13 L/min, lo normal son 40. Desenchufe, limpie el filtro, vea las entradas.',
    'flow silent':
      '[116] Ribeira: Sensor del retorno poco fiable desde las 13:47, un riego fallido puede no verse. Mire el sensor y el cable.',
    'flow stuck':
      '[128] Ribeira: Sensor del retorno muestra agua desde las 13:56 con la bomba parada. ¿Corre agua? Si no, desenchufe y suelte el sensor.',
    clock:
      '[131] Ribeira: El reloj del ordenador ha dado un salto, riegos como en las horas mas calurosas. Corrija fecha y hora, luego dé por vista.',
    'air old':
      '[112] Ribeira: Sin temperatura del aire desde las 13:45, el plan riega de mas. Mire el termometro del aire y su cable.',
    'channel dead':
      '[114] Ribeira: Nadie localizable por modem desde las 13:42, una alarma puede no llegar. Mirelo, y vigile el invernadero.',
    'channels dead':
      '[114] Ribeira: Nadie localizable por modem desde las 13:42, una alarma puede no llegar. Mirelo, y vigile el invernadero.',
    'not recording':
      '[98] Ribeira: No se registra nada desde las 13:42. Mire si el disco del ordenador esta lleno o gastado.',
    'slow disk':
      '[95] Ribeira: Disco lento, 9 registros esperan. Mire si el disco del ordenador esta lleno o gastado.',
    'safe mode':
      '[97] Ribeira: Ordenador al minimo: "three starts in 10 min". Deshaga el ultimo cambio, luego reinicie.',
    'clock fast': '[76] Ribeira: Reloj de la placa va 7 % mas deprisa. Cambie la placa cuando pueda.',
    'clock slow': '[77] Ribeira: Reloj de la placa va 3 % mas despacio. Cambie la placa cuando pueda.',
    'float unmoved':
      '[137] Ribeira: La boya del deposito no se mueve desde hace 30 dias. Con la bomba desenchufada, subala con la mano y mire si el estado la sigue.',
    'relay chatters':
      '[140] Ribeira: EL RELÉ CASTAÑETEA desde las 13:55: se calienta, peligro de incendio. Desenchufe antes de abrir la caja; red: solo un electricista.',
    'line bad':
      '[137] Ribeira: Linea con la placa mala: un mensaje de cada 12 llega estropeado. Mire su cable: clavijas, largo, distancia al cable de la bomba.',
    'line all bad':
      '[125] Ribeira: Linea con la placa mala: casi todo llega estropeado. Mire su cable: clavijas, largo, distancia al cable de la bomba.',
    'host hot':
      '[112] Ribeira: Ordenador demasiado caliente desde las 13:42: 78 C. Manos secas; dele sombra y aire, limpielo de polvo.',
    'host large':
      '[112] Ribeira: El programa ocupa demasiada memoria: 214 MB. Arranca solo de nuevo entre riegos; comuniquelo si vuelve.',
    'host large, by hand':
      '[103] Ribeira: El programa ocupa demasiada memoria: 214 MB. Terminelo entre dos riegos y arranquelo de nuevo.',
    'host battery':
      '[126] Ribeira: Bateria del ordenador 18 %, 11,4 V; vacia, nadie avisa, solo riega placa con tabla. Manos secas; vea su alimentacion.',
  },
  fr: {
    'missed, no mains':
      "[127] Ribeira: COUPURE, pas d'eau depuis 13:42. Bench 2 peut flétrir dès 14:40. Différentiel ? Secteur : électricien ; eau à la main.",
    'missed, no contact':
      "[125] Ribeira: Relais non fermé, pas d'eau depuis 13:42. Bench 2 peut flétrir dès 14:40. Voyez carte et relais ; branchez la pompe.",
    'missed, no current':
      "[128] Ribeira: Pompe sans courant, pas d'eau depuis 13:42. Bench 2 peut flétrir dès 14:40. Branchée ? Fusible ? Secteur : électricien.",
    'missed, tank fell':
      "[123] Ribeira: Cuve en baisse, pas d'eau depuis 13:42. Bench 2 peut flétrir dès 14:40. Débranchez, puis cherchez un tuyau défait.",
    'missed, pump ran':
      "[124] Ribeira: Pompe en marche, pas d'eau depuis 13:42. Bench 2 peut flétrir dès 14:40. Débranchez ; voyez filtre, entrée, tuyaux.",
    'missed, switched on':
      "[124] Ribeira: Pompe allumée, pas d'eau depuis 13:42. Bench 2 peut flétrir dès 14:40. Branchée ? Débranchez, puis voyez le filtre.",
    'mains lost':
      '[160] Ribeira: SECTEUR COUPÉ depuis 13:55. Bench 2 peut flétrir dès 14:40. Différentiel ? Secteur : électricien ; eau à la main. 1er Bench 2 : 3,5 L/gouttière/15 min.',
    'mains doubtful':
      '[104] Ribeira: Contact secteur douteux depuis 13:55. Bench 2 peut flétrir dès 14:40. Voyez si la pompe tourne.',
    'board silent':
      "[128] Ribeira: CARTE MUETTE depuis 13:56, pas d'arrosage. Bench 2 peut flétrir dès 14:40. Voyez cable et carte ; la minuterie arrose ?",
    'board silent, keeps':
      "[121] Ribeira: Carte muette depuis 13:56, devrait arroser seule. Sinon Bench 2 peut flétrir dès 14:40. Voyez s'il y a de l'eau.",
    'pump runs on':
      "[119] Ribeira: LA POMPE NE S'ARRETE PAS depuis 13:55, la cuve peut se vider ou déborder. Débranchez-la, puis voyez le relais.",
    'tank low':
      '[129] Ribeira: CUVE BASSE depuis 13:52, arrosages minimes. Bench 2 peut flétrir dès 14:40. Débranchez, remplissez, libérez le flotteur.',
    'float suspect':
      "[124] Ribeira: Flotteur bas depuis 13:27 mais l'eau revient. Bench 2 peut flétrir dès 14:40. Débranchez, puis essayez le flotteur.",
    'tank falls':
      '[140] Ribeira: LA CUVE PERD 48 L/h de trop, ne suffit plus dans 3 h 11 min (17:08). Loin des prises mouillées ; voir sol, gouttières, remplissage.',
    'tank falls, too low':
      '[116] Ribeira: LA CUVE PERD 60 L/h de trop, ne suffit plus. Loin des prises mouillées ; voir sol, gouttières, remplissage.',
    'tank falls, not soon':
      '[100] Ribeira: LA CUVE PERD 16 L/h de trop. Loin des prises mouillées ; voir sol, gouttières, remplissage.',
    'tank full':
      '[118] Ribeira: CUVE PLEINE, 598 L sur 600, peut déborder. Loin des prises mouillées ; fermez le remplissage, voyez la vanne.',
    'too strong':
      "[143] Ribeira: SOLUTION TROP FORTE : 2,60 mS/cm, usuel 1,60. Autre appareil d'abord, puis 195 L remplacés par de l'eau, par étapes ; gants, lunettes.",
    'too strong, room':
      "[132] Ribeira: SOLUTION TROP FORTE : 2,60 mS/cm, usuel 1,60. Autre appareil d'abord, puis ajoutez 64 L d'eau par étapes ; gants, lunettes.",
    'too strong, salty top-up':
      "[134] Ribeira: SOLUTION TROP FORTE : 2,60 mS/cm, usuel 1,60. Autre appareil d'abord, puis diluez, pas avec le remplissage ; gants, lunettes.",
    'too strong, back':
      "[115] Ribeira: La solution redonne 1,70 mS/cm, usuel 1,60. Autre appareil d'abord, puis n'ajoutez rien ; gants, lunettes.",
    'too weak':
      "[127] Ribeira: SOLUTION TROP FAIBLE : 0,90 mS/cm, usuel 1,60. Autre appareil d'abord, puis solution mère peu à peu ; gants, lunettes.",
    'leak and overflow':
      '[129] Ribeira: EAU HORS CIRCUIT : détecteur de fuite et trop-plein mouillés. Loin des prises mouillées ; retour bouché ? Tuyau défait ?',
    hold: "[126] Ribeira: Pas d'arrosage depuis 13:37 : arret demandé par Ana. Bench 2 peut flétrir dès 14:40. Sortez les mains, puis reprenez.",
    'dry, float low':
      "[158] Ribeira: PAS D'EAU depuis 13:37 : le flotteur de la cuve indique bas. Bench 2 peut flétrir dès 14:40. Arrosez à la main. 1er Bench 2 : 3,5 L/gouttière/15 min.",
    'dry, board keeps':
      "[127] Ribeira: Arrosage non vu depuis 13:37, la carte devrait arroser. Sinon Bench 2 peut flétrir dès 14:40. Voyez s'il y a de l'eau.",
    'return lower':
      '[133] Ribeira: Retour plus faible de 21 % (33 sur 41 L/min). Débranchez avant de toucher ; en arrosage voyez chaque entrée, puis le filtre.',
    'weak return':
      "[113] Ribeira: Arrosage faible : il revient 13 L/min, d'habitude 40. Débranchez, nettoyez le filtre, voyez les entrées.",
    'flow silent':
      '[123] Ribeira: Capteur du retour peu fiable depuis 13:47, un arrosage manqué peut passer inapercu. Voyez le capteur et son cable.',
    'flow stuck':
      "[128] Ribeira: Le capteur du retour montre de l'eau depuis 13:56, pompe arretée. L'eau coule ? Sinon débranchez et libérez le capteur.",
    clock:
      "[122] Ribeira: L'horloge de l'ordinateur a sauté, arrosages des heures les plus chaudes. Corrigez date et heure, puis confirmez.",
    'air old':
      "[122] Ribeira: Pas de température de l'air depuis 13:45, le plan arrose plutot trop. Voyez le thermomètre de l'air et son cable.",
    'channel dead':
      '[112] Ribeira: Personne joignable par modem depuis 13:42, une alarme peut se perdre. Voyez-le, et surveillez la serre.',
    'channels dead':
      '[112] Ribeira: Personne joignable par modem depuis 13:42, une alarme peut se perdre. Voyez-le, et surveillez la serre.',
    'not recording':
      "[97] Ribeira: Rien n'est enregistré depuis 13:42. Voyez si le disque de l'ordinateur est plein ou usé.",
    'slow disk':
      "[94] Ribeira: Disque lent, 9 lignes attendent. Voyez si le disque de l'ordinateur est plein ou usé.",
    'safe mode':
      '[108] Ribeira: Ordinateur au minimum : " three starts in 10 min ". Annulez le dernier changement, puis redémarrez.',
    'clock fast':
      "[85] Ribeira: L'horloge de la carte va 7 % plus vite. Changez la carte quand vous pourrez.",
    'clock slow':
      "[90] Ribeira: L'horloge de la carte va 3 % plus lentement. Changez la carte quand vous pourrez.",
    'float unmoved':
      "[119] Ribeira: Flotteur de la cuve immobile depuis 30 jours. Pompe débranchée, levez-le à la main et voyez si l'état le suit.",
    'relay chatters':
      "[133] Ribeira: LE RELAIS CLAQUE depuis 13:55 : il chauffe, risque d'incendie. Débranchez avant d'ouvrir le boitier ; secteur : électricien.",
    'line bad':
      '[140] Ribeira: Ligne vers la carte mauvaise : un message sur 12 arrive abimé. Voyez son cable : fiches, longueur, trop près de celui de la pompe ?',
    'line all bad':
      '[135] Ribeira: Ligne vers la carte mauvaise : presque tout arrive abimé. Voyez son cable : fiches, longueur, trop près de celui de la pompe ?',
    'host hot':
      '[97] Ribeira: Ordinateur trop chaud depuis 13:42 : 78 C. Mains sèches ; ombre et air, dépoussiérez-le.',
    'host large':
      '[124] Ribeira: Le programme occupe trop de mémoire : 214 Mo. Il redémarre seul entre deux arrosages ; signalez-le si cela revient.',
    'host large, by hand':
      '[104] Ribeira: Le programme occupe trop de mémoire : 214 Mo. Arretez-le entre deux arrosages et redémarrez-le.',
    'host battery':
      "[133] Ribeira: Batterie ordinateur 18 %, 11,4 V ; vide : pas d'appel, seule carte programmée arrose. Mains sèches ; voyez son alimentation.",
  },
};
