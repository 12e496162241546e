#pragma once

#include <memory>
#include <optional>

#include "cli/bench/grid.hpp"

namespace tenth::cli {

/// The whole terminal, given back as it was when this ends.
class Terminal {
 public:
  /// Nothing where the terminal is of no kind that is known.
  static std::optional<Terminal> take();

  int rows() const;
  int columns() const;
  /// Whether its locale writes UTF-8.
  bool utf8() const { return utf8_; }

  /// What is the same as before is not written again.
  void paint(const Grid& grid);
  /// The next key that waits; nothing where none does. Resizing is no key.
  std::optional<int> key();
  /// Everything is written anew.
  void redraw();

 private:
  struct End {
    void operator()(void* screen) const;
  };
  explicit Terminal(void* screen, bool utf8) : screen_(screen), utf8_(utf8) {}

  std::unique_ptr<void, End> screen_;
  bool utf8_;
};

}  // namespace tenth::cli
