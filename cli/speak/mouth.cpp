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

Mouth::Mouth(Helpers helpers, Limits limits)
    : helpers_(std::move(helpers)), limits_(limits), nothing_(open("/dev/null", O_RDONLY | O_CLOEXEC)) {
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
  if (utterance.text.empty() || helpers_.voice.empty()) return;
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
  if (runs(speech_)) {
    if (speech_rank_ > waiting_->rank) return;
    hush();
  }
  if (runs(tone_)) return;
  speech_ = Child::start(helpers_.saying(waiting_->text), nothing_, limits_.speech);
  speech_rank_ = waiting_->rank;
  waiting_.reset();
}

void Mouth::hush() {
  speech_.reset();
  if (!helpers_.cancels) return;
  auto quiet = Child::start({helpers_.voice.front(), "--cancel"}, nothing_, std::chrono::seconds(1));
  while (quiet && quiet->runs()) usleep(5'000);
}

bool Mouth::goes_on() {
  speak();
  show();
  const bool tone = runs(tone_), speech = runs(speech_), notice = runs(notice_);
  return tone || speech || notice || waiting_ || unshown_;
}

}  // namespace tenth::cli
