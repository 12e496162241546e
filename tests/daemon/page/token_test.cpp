#include "daemon/page/token.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>

#include <fstream>
#include <set>

#include "tests/support/folder.hpp"

namespace tenth {
namespace {

namespace fs = std::filesystem;

class TokenFile : public testing::Test {
 protected:
  std::string read(const std::string& text, mode_t mode = 0600) {
    fs::remove(file);
    std::ofstream(file) << text;
    ::chmod(file.c_str(), mode);
    const auto token = Token::from_file(file);
    if (token) return token->text();
    EXPECT_EQ(token.error().exit, Exit::refused);
    EXPECT_EQ(token.error().code, "token_file");
    EXPECT_EQ(token.error().message.find("zyxw"), std::string::npos) << "a message tells of the token";
    return "refused";
  }
  Folder folder;
  const fs::path file = folder / "token";
  const std::string good = "zyxwvutsrqponmlkjihgfedcba-_0123456789";
};

TEST(Token, IsOf256BitsAndNeverTheSame) {
  std::set<std::string> tokens;
  for (int n = 0; n < 100; ++n) tokens.insert(Token::make().text());
  EXPECT_EQ(tokens.size(), 100);
  for (const std::string& token : tokens) EXPECT_EQ(token.size(), 43) << "32 bytes in base 64";
}

TEST(Token, MatchesItselfAlone) {
  const Token token = Token::make();
  EXPECT_TRUE(token.matches(token.text()));
  EXPECT_FALSE(token.matches(""));
  EXPECT_FALSE(token.matches(token.text() + "a"));
  EXPECT_FALSE(token.matches(token.text().substr(0, 42)));
  EXPECT_FALSE(token.matches(Token::make().text()));
}

TEST_F(TokenFile, IsOneLineOfItsOwnerAlone) {
  EXPECT_EQ(read(good), good);
  EXPECT_EQ(read(good + "\n"), good);
  EXPECT_EQ(read(good, 0400), good);
  for (const mode_t mode : std::initializer_list<mode_t>{0640, 0604, 0660, 0602, 0644, 0610})
    EXPECT_EQ(read(good, mode), "refused") << mode;
}

TEST_F(TokenFile, HoldsATokenAndNothingElse) {
  EXPECT_EQ(read(""), "refused");
  EXPECT_EQ(read(good.substr(0, 31)), "refused");
  EXPECT_EQ(read(good + " "), "refused");
  EXPECT_EQ(read(good + "\n" + good + "\n"), "refused");
  EXPECT_EQ(read("zyxw<script>alert(1)</script>zyxwzyxwzyxw"), "refused");
  EXPECT_EQ(read(std::string(256, 'z')), std::string(256, 'z'));
  EXPECT_EQ(read(std::string(257, 'z')), "refused");
}

TEST_F(TokenFile, IsAFile) {
  EXPECT_FALSE(Token::from_file("/nowhere/token"));
  EXPECT_FALSE(Token::from_file(fs::temp_directory_path()));
  ASSERT_EQ(::mkfifo(file.c_str(), 0600), 0);
  EXPECT_FALSE(Token::from_file(file)) << "and nobody waits for one who writes into a pipe";
}

}  // namespace
}  // namespace tenth
