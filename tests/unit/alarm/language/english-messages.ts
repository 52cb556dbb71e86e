/** As in `message-table`. */
export const ENGLISH_MESSAGES: Readonly<Record<string, string>> = {
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
  'past late':
    '[101] Ribeira: Book not open yet: no hold known. Hands in the water: pull the plug. Pump waits 10 min only.',
  'past lost':
    '[106] Ribeira: Holds and alarms from before are lost. Hands in the water: pull the plug. Pump waits 10 min only.',
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
};
