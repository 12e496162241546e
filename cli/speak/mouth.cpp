#include "cli/speak/mouth.hpp"

#include <fcntl.h>
#include <sys/mman.h>
#include <unistd.h>

#include <utility>

namespace tenth::cli {
namespace {

bool runs(std::optional<Child>& child) {
  if (child && !child->runs()) child.reset();
  return child.has_value();
}

int file_of(const std::string& bytes) {
  const int file = memfd_create("tone", MFD_CLOEXEC);
  return file >= 0 && write(file, bytes.data(), bytes.size()) == static_cast<ssize_t>(bytes.size()) ? file : -1;
}

}  // namespace

Mouth::Mouth(Helpers helpers, Limits limits, GivenUp given_up)
    : helpers_(std::move(helpers)),
      limits_(limits),
      given_up_(std::move(given_up)),
      nothing_(open("/dev/null", O_RDONLY | O_CLOEXEC)) {
  for (const Sound sound : {Sound::stored, Sound::suspect, Sound::out, Sound::round_done})
    tones_[sound] = file_of(wav_of(sound));
}

Mouth::~Mouth() {
  if (runs(speech_)) hush();
  close(nothing_);
  for (const auto& [sound, file] : tones_) close(file);
}

void Mouth::say(const Utterance& utterance) {
  if (utterance.sound) play(utterance.rank, *utterance.sound);
  if (utterance.notice && !helpers_.notifier.empty()) {
    if (!unshown_) unshown_ = Notice{false, ""};
    unshown_->urgent = unshown_->urgent || utterance.notice->urgent;
    unshown_->text += (unshown_->text.empty() ? "" : "\n") + utterance.notice->text;
  }
  show();
  if (utterance.text.empty() || helpers_.voices.empty()) return;
  if (!waiting_ || waiting_->rank <= utterance.rank) waiting_ = {utterance.rank, utterance.text};
  speak();
}

/// One after the other: a program that has not shown its notice yet is not cut off for the next.
void Mouth::show() {
  if (!unshown_ || runs(notice_)) return;
  notice_ = Child::start(helpers_.showing(*std::exchange(unshown_, std::nullopt)), nothing_, limits_.notice);
}

void Mouth::play(Rank rank, Sound sound) {
  if (helpers_.player.empty() || (runs(tone_) && tone_rank_ > rank)) return;
  const int file = tones_.at(sound);
  lseek(file, 0, SEEK_SET);
  tone_.reset();  // what still sounds is over
  tone_ = Child::start(helpers_.player, file, limits_.tone);
  tone_rank_ = rank;
}

/// After its tone; at once, where what is being said is of no higher rank.
void Mouth::speak() {
  if (!waiting_) return;
  if (speaks()) {
    if (said_.rank > waiting_->rank) return;
    hush();
  }
  if (!runs(tone_)) start_speaking(*std::exchange(waiting_, std::nullopt));
}

void Mouth::start_speaking(Waiting what) {
  said_ = std::move(what);
  Helpers::Words words = helpers_.voices.front().words;
  words.push_back(said_.text);
  speech_ = Child::start(words, nothing_, limits_.speech);
  if (!speech_) give_up_voice();
}

/// A voice that failed is given up here, as it is seen here.
bool Mouth::speaks() {
  if (!speech_ || speech_->runs()) return speech_.has_value();
  const bool failed = speech_->failed();
  speech_.reset();
  if (failed) give_up_voice();
  return false;
}

/// The last one is kept: it may recover. What the failed one was to say waits for the next, unless newer words do.
void Mouth::give_up_voice() {
  if (helpers_.voices.size() < 2) return;
  const std::string failed = helpers_.voices.front().words.front();
  helpers_.voices.erase(helpers_.voices.begin());
  if (!waiting_ || waiting_->rank < said_.rank) waiting_ = said_;
  if (given_up_) given_up_(failed, helpers_.voices.front().words.front());
}

void Mouth::hush() {
  speech_.reset();
  const Helpers::Voice& voice = helpers_.voices.front();
  if (!voice.cancels) return;
  auto quiet = Child::start({voice.words.front(), "--cancel"}, nothing_, std::chrono::seconds(1));
  while (quiet && quiet->runs()) usleep(5'000);
}

bool Mouth::goes_on() {
  speak();
  show();
  const bool tone = runs(tone_), speech = speaks(), notice = runs(notice_);
  return tone || speech || notice || waiting_ || unshown_;
}

}  // namespace tenth::cli
