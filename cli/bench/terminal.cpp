#include "cli/bench/terminal.hpp"

#define NCURSES_WIDECHAR 1
#include <curses.h>
#include <langinfo.h>

#include <clocale>
#include <cstdio>
#include <string_view>

namespace tenth::cli {
namespace {

chtype attribute(Look look) {
  switch (look) {
    case Look::strong:
      return A_BOLD;
    case Look::faint:
      return A_DIM;
    case Look::alarm:
      return A_BOLD | A_REVERSE;
    case Look::plain:
      break;
  }
  return A_NORMAL;
}

}  // namespace

std::optional<Terminal> Terminal::take() {
  std::setlocale(LC_CTYPE, "");  // for letters; numbers keep their point
  SCREEN* const screen = newterm(nullptr, stdout, stdin);
  if (screen == nullptr) return std::nullopt;
  cbreak();
  noecho();
  curs_set(0);
  nodelay(stdscr, TRUE);
  keypad(stdscr, TRUE);
  return Terminal(screen, std::string_view(nl_langinfo(CODESET)) == "UTF-8");
}

void Terminal::End::operator()(void* screen) const {
  endwin();
  delscreen(static_cast<SCREEN*>(screen));
}

int Terminal::rows() const {
  return getmaxy(stdscr);
}
int Terminal::columns() const {
  return getmaxx(stdscr);
}

void Terminal::paint(const Grid& grid) {
  for (int row = 0; row < grid.rows(); ++row) {
    move(row, 0);
    for (const Cell& cell : grid.row(row)) {
      attrset(static_cast<int>(attribute(cell.look)));
      addstr(cell.text.c_str());
    }
  }
  refresh();
}

std::optional<int> Terminal::key() {
  const int key = getch();
  if (key == KEY_RESIZE) {
    erase();
    return std::nullopt;
  }
  return key == ERR ? std::nullopt : std::optional(key);
}

void Terminal::redraw() {
  clearok(stdscr, TRUE);
}

}  // namespace tenth::cli
