// Runs of readings: what else lies between them is passed by, and what cannot be done leaves all as it was.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Run : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("mic", {"--unit", "mm"});
    done({"round", "main_journal"});
    for (const char* size : {"53.990", "53.991", "53.992", "53.993", "53.990"})
      seqs_.push_back(press("mic", line(size))["seq"].get<int>());
  }
  std::string run(std::size_t first, std::size_t last) const {
    return std::to_string(seqs_[first]) + ".." + std::to_string(seqs_[last]);
  }
  // The state of each, k, s or v.
  std::string states() const {
    std::string text;
    const json all = asked({"readings", "--all"});
    for (const int seq : seqs_) text += reading_of(all, seq)["state"].get<std::string>()[0];
    return text;
  }
  std::vector<int> seqs_;
};

TEST_F(Run, OfVoidsPassesByThoseThatAreVoidAlready) {
  done({"void", run(1, 3), "--reason", "dirt"});
  EXPECT_EQ(states(), "kvvvk");
  done({"void", run(0, 2), "--reason", "dirt"});
  EXPECT_EQ(states(), "vvvvk");
  refused({"void", run(0, 2), "--reason", "dirt"}, 4);
  done({"keep", run(0, 4), "--reason", "it was no dirt"});
  EXPECT_EQ(states(), "kkkkk");
}

TEST_F(Run, OutsideTheLedgerOrBackwardsIsRefused) {
  for (const std::string& words : {std::to_string(seqs_[4]) + "..999999", std::string("1..3")})
    refused({"void", words, "--reason", "dirt"}, 4);
  for (const std::string& words :
       {run(3, 1), std::string("5.."), std::string("..5"), std::string("0"), std::string("x")})
    refused({"void", words, "--reason", "dirt"}, 2);
  EXPECT_EQ(states(), "kkkkk");
}

TEST_F(Run, TooLongForTheRoundIsNotMovedAtAll) {
  refused({"move", run(0, 3), "main_journal", "3", "--reason", "began late"}, 4);
  EXPECT_EQ(asked({"readings"})[0]["index"], 1);
  done({"move", run(0, 2), "main_journal", "3", "--reason", "began late"});
  const json all = asked({"readings", "--all"});
  EXPECT_EQ(reading_of(all, seqs_[0])["index"], 3);
  EXPECT_EQ(reading_of(all, seqs_[0])["moved_from"], "main_journal/1");
  EXPECT_EQ(reading_of(all, seqs_[2])["index"], 5);
  EXPECT_EQ(reading_of(all, seqs_[2])["counts"], false) << "a later one is there";
}

TEST_F(Run, ToACheckOrAnotherKindIsDoubted) {
  done({"move", std::to_string(seqs_[0]), "oil_feed_clear", "--reason", "a slip"});
  EXPECT_EQ(doubts_of(reading_of(asked({"readings", "--all"}), seqs_[0])), "wrong_kind");
  refused({"keep", std::to_string(seqs_[0]), "--reason", "no"}, 4);
  done({"move", std::to_string(seqs_[0]), "main_journal", "1", "--reason", "back"});
  EXPECT_EQ(states(), "kkkkk");
}

}  // namespace
}  // namespace acceptance
