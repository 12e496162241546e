// Spec files: what is wrong in one is said with its line, and nothing of it is taken.
#include <regex>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

class Spec : public Bench {
 protected:
  // `single` with one line put in place of another; the error must name that line.
  void wrong(const std::string& line, const std::string& instead, const std::string& word = {}, long span = 1) {
    std::string text = single;
    const std::size_t at = text.find(line);
    ASSERT_NE(at, std::string::npos) << line;
    text.replace(at, line.size(), instead);
    const auto number = 1 + std::count(text.begin(), text.begin() + static_cast<long>(at), '\n') +
                        std::count(instead.begin(), instead.end(), '\n');
    refused_at(text, number, word, span);
  }
  // `single` with more at its end; the error must name one of the last `span` lines.
  void wrong_end(const std::string& more, const std::string& word = {}) {
    const std::string text = single + more;
    refused_at(text, std::count(text.begin(), text.end(), '\n'), word, std::count(more.begin(), more.end(), '\n'));
  }
  void refused_at(const std::string& text, long number, const std::string& word, long span = 1) {
    const std::string error = refused({"engine", "add", "W", "--spec", write("wrong.toml", text)}, 4);
    std::smatch place;
    ASSERT_TRUE(std::regex_search(error, place, std::regex("wrong\\.toml\\D{1,8}([0-9]+)\\D{1,10}[0-9]+")))
        << "file, line and column: " << error;
    EXPECT_LE(std::stol(place[1]), number) << error << text;
    EXPECT_GT(std::stol(place[1]), number - span) << error << text;
    EXPECT_NE(error.find(word), std::string::npos) << error;
    EXPECT_EQ(asked({"engine", "list"}).dump().find("\"W\""), std::string::npos) << error;
  }
};

TEST_F(Spec, AWrongLineIsNamed) {
  wrong("unit = \"mm\"", "unit = \"furlong\"");
  wrong("cylinders = 1", "cylinders = 0");
  wrong("cylinders = 1", "cylinders = -2");
  wrong("cylinders = 1", "cylinders = 2000000000");
  wrong("cylinders = 1", "cylinders = \"one\"");
  wrong("kind = \"inside\"", "kind = \"insde\"", "inside");
  wrong("kind = \"inside\"", "kind = \"inside\"\ncolour = \"red\"", "colour");
  wrong("kind = \"inside\"", "kind = \"inside\"\nfastset = \"level\"", "fastest");
  wrong("kind = \"inside\"", "kind = \"inside\"\ncount = \"valves\"");
  wrong("kind = \"inside\"", "kind = \"inside\"\ncount = 0");
  wrong("kind = \"inside\"", "kind = \"inside\"\nlevels = [\"top\", \"top\"]");
  wrong("kind = \"inside\"", "kind = \"inside\"\nlevels = [\"upper half\"]");
  wrong("kind = \"inside\"", "kind = \"inside\"\nlevels = [\"a/b\"]");
  wrong("kind = \"inside\"", "kind = \"inside\"\naxes = [\"\"]");
  wrong("kind = \"inside\"", "kind = \"inside\"\npresses = 0");
  wrong("kind = \"inside\"", "kind = \"inside\"\nfastest = \"index\"");
  wrong("kind = \"inside\"", "kind = \"inside\"\nlabels = [\"1\", \"2\"]");
  wrong("kind = \"inside\"", "kind = \"inside\"\nrepeat = \"a little\"");
  wrong("limits = [70.000, 70.020]", "limits = [70.000]");
  wrong("limits = [70.000, 70.020]", "limits = [70.000, \"70.020 m\"]");
  wrong("limits = [70.000, 70.020]", "limits = [70.000, 70.020]\nsize = \"70 H7\"", {}, 2);
  wrong("limits = [70.000, 70.020]", "size = \"70 Q7\"");
  wrong("limits = [70.000, 70.020]", "size = \"H7\"");
  wrong("limits = [70.000, 70.020]\n", "limits = [70.000, 70.020\n", {}, 2);  // the bracket is missed on the next line
}

TEST_F(Spec, AnImpossibleLimitIsSaidAtOnce) {
  wrong("limits = [70.000, 70.020]", "limits = [70.020, 70.000]");
  wrong("limits = [70.000, 70.020]",
        "limits = [70.000, 70.020]\nlevels = [\"a\", \"b\"]\naxes = [\"x\", \"y\"]\nout_of_round = 0.021");
  wrong("limits = [70.000, 70.020]", "limits = [70.000, 70.020]\nlevels = [\"a\", \"b\"]\ntaper = 0.0201");
  const std::string fit = "[fit.clearance]\ninside = \"bore\"\noutside = \"piston\"\n";
  wrong_end(fit + "limits = [0.081, 0.090]\n");  // the parts give 0.045 to 0.080
  wrong_end(fit + "limits = [0.010, 0.0449]\n");
  wrong_end(fit + "min = 0.0801\n");
  wrong_end(fit + "limits = [0.060, 0.050]\n");
  wrong_end("[spread.bore]\nlimit = -0.001\n");
  done({"engine", "add", "just", "--spec", write("just.toml", single + fit + "limits = [0.080, 0.090]\n")});
}

TEST_F(Spec, AFitOfWhatIsNotThereIsAnError) {
  wrong_end("[fit.clearance]\ninside = \"boer\"\noutside = \"piston\"\nlimits = [0.045, 0.080]\n", "bore");
  wrong_end("[fit.clearance]\ninside = \"piston\"\noutside = \"bore\"\nlimits = [0.045, 0.080]\n");
  wrong_end("[fit.clearance]\ninside = \"bore\"\nlimits = [0.045, 0.080]\n");
  wrong_end(
      "[fit.clearance]\ninside = \"bore\"\noutside = \"piston\"\nlimits = [0.045, 0.080]\ninside_levels = "
      "[\"middle\"]\n");
  wrong_end("[fit.clearance]\ninside = \"bore\"\noutside = \"piston\"\nlimits = [0.045, 0.080]\njudge = \"median\"\n",
            "mean");
  wrong_end("[spread.nothing]\nlimit = 0.005\n");
}

TEST_F(Spec, SharedPinsMustBeSaidWhereCountsDiffer) {
  std::string text = vee_eight;
  const std::size_t at = text.find("pins =");
  text.replace(at, text.find('\n', at) - at + 1, "");
  const std::string error = refused({"engine", "add", "W", "--spec", write("wrong.toml", text)}, 4);
  EXPECT_NE(error.find("pins"), std::string::npos) << error;
  text = vee_eight;
  text.replace(text.find("[\"L4\", \"R4\"]]"), 13, "[\"L4\", \"R3\"]]");
  refused({"engine", "add", "W", "--spec", write("wrong.toml", text)}, 4);
}

TEST_F(Spec, AFileOfNonsenseIsRefused) {
  for (const std::string& text :
       {std::string("\0\xff\xfe{{{", 7), std::string(2 << 20, 'x'), std::string(2000, '[') + "\n"}) {
    refused({"engine", "add", "W", "--spec", write("wrong.toml", text)}, 4);
  }
  refused({"engine", "add", "W", "--spec", home_}, 4);
}

TEST_F(Spec, IsStoredWholeAndResultsNameTheEntry) {
  engine(inline_four);
  const json check = asked({"check"});
  const auto rows = entries(daemon_.ledger(), "seq = " + check["spec"].dump());
  ASSERT_EQ(rows.size(), 1U);
  const std::string body = rows[0].json().dump();
  EXPECT_NE(body.find(json(inline_four).dump()), std::string::npos) << "the whole text, as it was";
}

TEST_F(Spec, IsoClassesAreTheStandards) {
  // ISO 286-2: 54 h6 is 0/-19 um, 86 H7 is +35/0 um, 22 g6 is -7/-20 um, 60 N7 is -9/-39 um. From memory.
  struct Case {
    const char *kind, *size, *low, *high, *below, *above;
  };
  for (const Case& one : {Case{"outside", "54 h6", "53.981", "54.000", "53.9809", "54.0001"},
                          Case{"inside", "86 H7", "86.000", "86.035", "85.9999", "86.0351"},
                          Case{"outside", "22 g6", "21.980", "21.993", "21.9799", "21.9931"},
                          Case{"inside", "60 N7", "59.961", "59.991", "59.9609", "59.9911"}}) {
    const std::string name = std::string("class-") + one.low;
    engine(
        "title = \"class\"\nunit = \"mm\"\n[layout]\ncylinders = 1\nmains = 1\ncrankpins = 1\n[feature.part]\ncount = "
        "4\nkind = \"" +
            std::string(one.kind) + "\"\nsize = \"" + one.size + "\"\n",
        name);
    if (cables_.empty()) gauge("g", {"--unit", "mm"});
    done({"round", "part"});
    for (const char* number : {one.low, one.high, one.below, one.above})
      EXPECT_EQ(press("g", line(number))["state"], "kept");
    const json features = asked({"check"}, 1)["features"];
    EXPECT_EQ(features[0]["verdict"], "in") << name;
    EXPECT_EQ(features[1]["verdict"], "in") << name;
    EXPECT_EQ(features[2]["verdict"], "out") << name;
    EXPECT_EQ(features[3]["verdict"], "out") << name;
  }
}

}  // namespace
}  // namespace acceptance
