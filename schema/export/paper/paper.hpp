#pragma once

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "rules/judge.hpp"
#include "schema/export/paper/drawing.hpp"

namespace tenth::paper {

// What is handed over on paper, whatever it is printed by: the words and figures are made here once, `html/` and `pdf/`
// only lay them out. Texts are as people and gauges gave them: whoever writes a page makes them harmless.

/// A sign that is told from the others by its shape alone; `box` is to be ticked by hand.
enum class Sign { in, doubtful, incomplete, out, box };
Drawing drawing_of(Sign sign);

enum class Face { plain, bold, typed };

/// A piece of a line: a sign, where there is one, stands before its text.
struct Piece {
  std::string text;
  Face face = Face::plain;
  std::optional<Sign> sign = {};
};
using Line = std::vector<Piece>;

/// The verdict's sign with its word.
Piece mark(const std::optional<Verdict>& verdict);
/// No text in any piece.
bool is_empty(const Line& line);

/// Of a table: a line, a picture, or room to write in.
struct Cell {
  Cell() = default;
  Cell(std::string text) : line{{std::move(text)}} {}
  Cell(Piece piece) : line{std::move(piece)} {}
  Cell(Line given) : line(std::move(given)) {}
  Cell(std::optional<Drawing> given) : picture(std::move(given)) {}
  Line line;
  std::optional<Drawing> picture;
};
using Cells = std::vector<Cell>;

/// What stands in a column: `number` large enough to read, `picture`, `note` of any length, `raw` as a gauge sent it,
/// `hand` left free for writing.
enum class Manner { plain, number, picture, note, raw, hand };

struct Column {
  std::string head;
  Manner manner = Manner::plain;
};

/// How dense a table is printed: figures of results, long lists, forms to be filled in by hand.
enum class Density { figures, list, form };

/// The head is repeated on every page. An empty cell shows a dash, where it is not left free. A row of one cell spans
/// the table.
struct Table {
  Density density = Density::figures;
  std::vector<Column> columns;
  std::vector<Cells> rows;
};

enum class Tone { plain, asked, legend };
struct Paragraph {
  Line line;
  Tone tone = Tone::plain;
};

struct Items {
  std::vector<std::string> sentences;
};

struct Facts {
  std::vector<std::pair<std::string, std::string>> rows;
};

/// The whole verdict, and all that keeps it from being in.
struct Whole {
  Piece verdict;
  std::string sentence;
  std::vector<std::pair<Piece, std::string>> against;
};

struct Picture {
  Line caption;
  Drawing drawing;
};
struct Pictures {
  int in_a_row = 1;
  std::vector<Picture> pictures;
};

/// The head of the chain as SEQ:HEX, to be read by eye and by camera.
struct HeadOfChain {
  std::string text;
};

/// Lines to sign on, each with what the signature says.
struct Signatures {
  std::vector<std::string> meanings;
};

using Block = std::variant<Paragraph, Items, Facts, Whole, Pictures, Table, HeadOfChain, Signatures>;

/// A title stays with what stands before its first table; without a title: just what stands in it.
struct Part {
  std::string title;
  std::vector<Block> blocks;
};

struct Act {
  std::string title, what;  ///< what it holds, in a few words
  std::vector<Part> parts;
};

struct Paper {
  std::string kind;   ///< "Build record"
  std::string title;  ///< the engine's name
  std::string subtitle;
  std::string head;   ///< of the chain, SEQ:HEX, on every page
  std::string as_of;  ///< when that entry was made, RFC 3339: the only time that a page bears of its own
  std::vector<Block> top;
  std::vector<Act> acts;
};

/// What a paper is printed on.
enum class Sheet { a4, letter };
/// Hears of a page that is done, and of how many.
using PageTold = std::function<void(int page, int of)>;

Paragraph said(std::string sentence, Tone tone = Tone::plain);

}  // namespace tenth::paper
