// Firmata bytes to messages (github firmata/protocol, protocol.md 2.7). Any byte may come at any time; nothing is acted on
// that is not whole.
#pragma once
#include "frame.h"

namespace keeper {

namespace firmata {
constexpr uint8_t DIGITAL = 0x90;
constexpr uint8_t REPORT_ANALOG = 0xC0;
constexpr uint8_t REPORT_DIGITAL = 0xD0;
constexpr uint8_t ANALOG = 0xE0;
constexpr uint8_t PIN_MODE = 0xF4;
constexpr uint8_t PIN_VALUE = 0xF5;
constexpr uint8_t VERSION = 0xF9;
constexpr uint8_t RESET = 0xFF;
constexpr uint8_t ANALOG_MAPPING_QUERY = 0x69;
constexpr uint8_t ANALOG_MAPPING = 0x6A;
constexpr uint8_t CAPABILITY_QUERY = 0x6B;
constexpr uint8_t CAPABILITY = 0x6C;
constexpr uint8_t PIN_STATE_QUERY = 0x6D;
constexpr uint8_t PIN_STATE = 0x6E;
constexpr uint8_t FIRMWARE = 0x79;
constexpr uint8_t SAMPLING_INTERVAL = 0x7A;
}  // namespace firmata

// Handler: void message(uint8_t command, uint8_t low, uint8_t first, uint8_t second) with the command's channel or port in
// `low`; void sysex(uint8_t id, uint8_t* bytes, uint8_t count), keeper frames with their pairs joined, the bytes its to use;
// void spoilt(), for what was dropped.
template <class Handler>
class FirmataParser {
 public:
  explicit FirmataParser(Handler& handler) : handler_(handler) {}

  CALLED void take(uint8_t byte) {
    if (byte & 0x80) command(byte);
    else data(byte);
  }
  bool inside() const { return command_ != 0; }
  // What was begun is not finished any more.
  CALLED void forget() {
    if (command_ == SYSEX_START) handler_.spoilt();
    command_ = 0;
  }

 private:
  static uint8_t family(uint8_t byte) { return byte < 0xF0 ? static_cast<uint8_t>(byte & 0xF0) : byte; }

  static uint8_t dataOf(uint8_t command) {
    switch (family(command)) {
      case firmata::DIGITAL:
      case firmata::ANALOG:
      case firmata::PIN_MODE:
      case firmata::PIN_VALUE:
        return 2;
      case firmata::REPORT_ANALOG:
      case firmata::REPORT_DIGITAL:
        return 1;
      default:
        return 0;
    }
  }

  void command(uint8_t byte) {
    if (byte == SYSEX_END && command_ == SYSEX_START) {
      command_ = 0;
      end();
      return;
    }
    forget();
    if (byte == firmata::VERSION || byte == firmata::RESET) {
      handler_.message(byte, 0, 0, 0);
      return;
    }
    if (byte != SYSEX_START && dataOf(byte) == 0) return;
    command_ = byte;
    count_ = 0;
    id_ = 0;
    overlong_ = false;
    halves_ = 0;
  }

  void data(uint8_t byte) {
    if (command_ == 0) return;
    if (command_ == SYSEX_START) {
      inSysex(byte);
      return;
    }
    bytes_[count_++] = byte;
    if (count_ < dataOf(command_)) return;
    const uint8_t command = command_;
    command_ = 0;
    const uint8_t kind = family(command);
    handler_.message(kind, static_cast<uint8_t>(command & 0x0F), bytes_[0], count_ > 1 ? bytes_[1] : uint8_t{0});
  }

  void inSysex(uint8_t byte) {
    if (halves_ == 0 && id_ == 0) {
      // An id of nought is the protocol's mark for extended ids, which this board has none of.
      id_ = byte == 0 ? uint8_t{0x7F} : byte;
      return;
    }
    if (id_ != SYSEX_ID) {
      put(byte);
      return;
    }
    if ((halves_++ & 1) == 0) low_ = byte;
    else if (byte > 1) overlong_ = true;
    else put(byte == 0 ? low_ : static_cast<uint8_t>(low_ | 0x80));
    if (halves_ == 0xFE) overlong_ = true, halves_ = 2;
  }

  CALLED void put(uint8_t byte) {
    if (count_ < FRAME_BYTES_MAX) bytes_[count_++] = byte;
    else overlong_ = true;
  }

  void end() {
    if (id_ == 0) return;
    const bool odd = id_ == SYSEX_ID && (halves_ & 1) != 0;
    if (overlong_ || odd) handler_.spoilt();
    else handler_.sysex(id_, bytes_, count_);
  }

  Handler& handler_;
  uint8_t command_ = 0;
  // Of the command that was begun.
  uint8_t id_;
  uint8_t halves_;
  uint8_t low_;
  uint8_t count_;
  bool overlong_;
  uint8_t bytes_[FRAME_BYTES_MAX];
};

}  // namespace keeper
