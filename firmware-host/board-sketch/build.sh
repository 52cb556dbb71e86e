#!/usr/bin/env bash
# Builds the firmware of the board: board.hex and board.size.txt, which are committed. Needs avr-gcc and avr-libc
# (Debian: gcc-avr, avr-libc, binutils-avr); rillkeeper itself needs neither, it ships the built board.hex.
# The same sources and compiler give the same bytes. Usage: build.sh [folder for the results]
set -euo pipefail
export LC_ALL=C
for tool in avr-g++ avr-objcopy avr-size; do
  if ! command -v "$tool" > /dev/null; then
    echo "the firmware cannot be built without $tool: install gcc-avr, avr-libc and binutils-avr (Debian packages)" >&2
    exit 1
  fi
done
cd "$(dirname "${BASH_SOURCE[0]}")"
out=${1:-.}

# Where the setup lies: docs/board-protocol.md, "Setup". The program must end before it.
readonly SETUP_AT=0x6F00
# Room kept free on purpose: in the flash for later, in RAM for stack and interrupts. of 28416 and 2048 bytes.
readonly FLASH_MOST=13312
readonly RAM_MOST=1024

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# Of all that -Os does, what makes this program larger is off: the same start and end of many functions is shared, `this` of
# the keeper stays in a register (constants carried into functions would make each of its bytes a four-byte instruction), and
# small functions are called, not copied. Found by trying; each of them saves bytes with this compiler.
small=(-mcall-prologues -mstrict-X -fno-ipa-cp -fno-inline-small-functions -fno-move-loop-invariants -fno-tree-sra
  -fno-tree-vrp)

# Relative names and a fixed seed: nothing of the machine or the day gets into the result.
flags=(-std=c++14 -mmcu=atmega328p -DF_CPU=16000000UL -Os "${small[@]}" -flto -Wall -Wextra -Wconversion -Wshadow -Werror
  -fno-exceptions -fno-rtti -ffunction-sections -fdata-sections -frandom-seed=board -mrelax)

mapfile -t sources < <(find . -name '*.cpp' | sed 's|^\./||' | sort)
objects=()
for source in "${sources[@]}"; do
  object="$work/${source//\//_}.o"
  avr-g++ "${flags[@]}" -c "$source" -o "$object"
  objects+=("$object")
done
avr-g++ "${flags[@]}" -Wl,--gc-sections -Wl,--section-start=.setup="$SETUP_AT" "${objects[@]}" -o "$work/board.elf"
avr-objcopy -O ihex -j .text -j .data -j .setup "$work/board.elf" "$work/board.hex"

# A section is absent from the listing when it is empty.
size_of() {
  avr-size -A "$work/board.elf" | awk -v section="$1" '$1 == section { bytes = $2 } END { print bytes + 0 }'
}
text=$(size_of .text) data=$(size_of .data) bss=$(size_of .bss) noinit=$(size_of .noinit) setup=$(size_of .setup)
flash=$((text + data))
ram=$((data + bss + noinit))
{
  printf '%-8s %6d\n' .text "$text" .data "$data" .bss "$bss" .noinit "$noinit" .setup "$setup"
  printf '%-8s %6d of %d\n' flash "$flash" "$FLASH_MOST" RAM "$ram" "$RAM_MOST"
} > "$work/board.size.txt"
cat "$work/board.size.txt"

if ((setup == 0)); then
  echo "board.elf has no .setup section: the board could never be set up" >&2
  exit 1
fi
if ((flash > FLASH_MOST || ram > RAM_MOST)); then
  echo "too large: flash $flash of $FLASH_MOST bytes, RAM $ram of $RAM_MOST" >&2
  exit 1
fi
cp "$work/board.hex" "$work/board.size.txt" "$out/"
