// Facts of a test program, one line each: `ok <title>` or `not ok <title>: <the first thing that was not so>`.
#pragma once
#include <cstdarg>
#include <cstdio>

namespace facts {

class Fact {
 public:
  explicit Fact(const char* title) : title_(title) {}
  Fact(const Fact&) = delete;
  Fact& operator=(const Fact&) = delete;
  ~Fact() {
    if (checks_ == 0) std::printf("not ok %s: nothing was checked\n", title_);
    else if (failed_) std::printf("not ok %s: %s\n", title_, what_);
    else std::printf("ok %s\n", title_);
    std::fflush(stdout);
  }

  bool once() {
    const bool first = !begun_;
    begun_ = true;
    return first;
  }
  bool failed() const { return failed_; }
  // Only the first failure is told, with the values that it gives.
  __attribute__((format(printf, 3, 4))) void check(bool so, const char* what, ...) {
    ++checks_;
    if (so || failed_) return;
    failed_ = true;
    va_list values;
    va_start(values, what);
    std::vsnprintf(what_, sizeof(what_), what, values);
    va_end(values);
  }

 private:
  const char* title_;
  char what_[400] = {};
  unsigned long checks_ = 0;
  bool failed_ = false;
  bool begun_ = false;
};

}  // namespace facts

// FACT("title") { CHECK(condition, "what, with values as printf takes them"); }
#define FACT(title) for (facts::Fact fact(title); fact.once();)
#define CHECK(...) fact.check(__VA_ARGS__)
