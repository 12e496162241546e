#include "tests/support/faulty_vfs.hpp"

#include <fstream>
#include <iterator>

namespace tenth {
namespace {

FaultyDisk* disk = nullptr;  // SQLite's callbacks have no room for it

/// Our part of an open file; SQLite's own follows in the same memory.
struct File {
  sqlite3_file base;
  FaultyDisk::Medium* medium;  ///< null for SQLite's nameless scratch files
};

sqlite3_file* real(sqlite3_file* file) {
  return reinterpret_cast<sqlite3_file*>(reinterpret_cast<File*>(file) + 1);
}
FaultyDisk::Medium* medium(sqlite3_file* file) {
  return reinterpret_cast<File*>(file)->medium;
}

void lay_on(std::string& image, const FaultyDisk::Change& change) {
  const std::size_t end = change.offset + change.bytes.size();
  if (change.cut || image.size() < end) image.resize(change.cut ? change.offset : end);
  image.replace(change.offset, change.bytes.size(), change.bytes);
}

int close(sqlite3_file* file) {
  return real(file)->pMethods->xClose(real(file));
}

int read(sqlite3_file* file, void* into, int count, sqlite3_int64 offset) {
  if (const int code = disk->strike()) return code;
  return real(file)->pMethods->xRead(real(file), into, count, offset);
}

int write(sqlite3_file* file, const void* from, int count, sqlite3_int64 offset) {
  const int refused = disk->strike();
  const int done = refused != SQLITE_OK ? count / 2 : count;  // a full disk still takes the first part
  const std::string bytes(static_cast<const char*>(from), static_cast<std::size_t>(done));
  if (medium(file) != nullptr) medium(file)->since.push_back({static_cast<std::size_t>(offset), bytes});
  const int code = real(file)->pMethods->xWrite(real(file), from, done, offset);
  return refused != SQLITE_OK ? refused : code;
}

int truncate(sqlite3_file* file, sqlite3_int64 size) {
  if (const int code = disk->strike()) return code;
  if (medium(file) != nullptr) medium(file)->since.push_back({static_cast<std::size_t>(size), {}, true});
  return real(file)->pMethods->xTruncate(real(file), size);
}

/// Only the picture of the disk is synced: these tests never look at the real one after a real power cut. The real
/// layer has one code for a sync that fails, whatever the reason.
int sync(sqlite3_file* file, int) {
  if (disk->strike() != SQLITE_OK || disk->syncs_fail()) return SQLITE_IOERR_FSYNC;
  if (medium(file) != nullptr) {
    for (const auto& change : medium(file)->since) lay_on(medium(file)->synced, change);
    medium(file)->since.clear();
  }
  return SQLITE_OK;
}

int size(sqlite3_file* file, sqlite3_int64* bytes) {
  return real(file)->pMethods->xFileSize(real(file), bytes);
}
int lock(sqlite3_file* file, int level) {
  return real(file)->pMethods->xLock(real(file), level);
}
int unlock(sqlite3_file* file, int level) {
  return real(file)->pMethods->xUnlock(real(file), level);
}
int reserved(sqlite3_file* file, int* is) {
  return real(file)->pMethods->xCheckReservedLock(real(file), is);
}
int control(sqlite3_file* file, int what, void* with) {
  return real(file)->pMethods->xFileControl(real(file), what, with);
}
int sector(sqlite3_file* file) {
  return real(file)->pMethods->xSectorSize(real(file));
}
int traits(sqlite3_file* file) {
  return real(file)->pMethods->xDeviceCharacteristics(real(file));
}

int shm_map(sqlite3_file* file, int page, int bytes, int extend, void volatile** at) {
  if (const int code = disk->strike()) return code;
  return real(file)->pMethods->xShmMap(real(file), page, bytes, extend, at);
}
int shm_lock(sqlite3_file* file, int offset, int n, int flags) {
  return real(file)->pMethods->xShmLock(real(file), offset, n, flags);
}
void shm_barrier(sqlite3_file* file) {
  real(file)->pMethods->xShmBarrier(real(file));
}
int shm_unmap(sqlite3_file* file, int remove) {
  return real(file)->pMethods->xShmUnmap(real(file), remove);
}

const sqlite3_io_methods kMethods = {2,        close,       read,      write,   truncate, sync,   size,
                                     lock,     unlock,      reserved,  control, sector,   traits, shm_map,
                                     shm_lock, shm_barrier, shm_unmap, nullptr, nullptr};

int open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* out_flags) {
  file->pMethods = nullptr;  // nothing to close where this fails
  if (const int code = disk->strike()) return code;
  const int code = disk->base()->xOpen(disk->base(), name, real(file), flags, out_flags);
  if (code != SQLITE_OK) return code;
  reinterpret_cast<File*>(file)->medium = name != nullptr ? &disk->medium(name) : nullptr;
  file->pMethods = &kMethods;
  return SQLITE_OK;
}

int remove(sqlite3_vfs*, const char* name, int sync_folder) {
  if (const int code = disk->strike()) return code;
  disk->forget(name);
  return disk->base()->xDelete(disk->base(), name, sync_folder);
}

}  // namespace

FaultyDisk::FaultyDisk() : base_(sqlite3_vfs_find(nullptr)), vfs_(*base_) {
  vfs_.zName = "faulty";
  vfs_.szOsFile = static_cast<int>(sizeof(File)) + base_->szOsFile;
  vfs_.xOpen = open;
  vfs_.xDelete = remove;
  disk = this;
  sqlite3_vfs_register(&vfs_, 1);
}

FaultyDisk::~FaultyDisk() {
  sqlite3_vfs_unregister(&vfs_);
  sqlite3_vfs_register(base_, 1);
  disk = nullptr;
}

void FaultyDisk::fail_at(int n, int code, bool for_ever) {
  calls_ = 0;
  fail_at_ = n;
  code_ = code;
  for_ever_ = for_ever;
  failed_ = false;
}

int FaultyDisk::strike() {
  ++calls_;
  const bool fails = fail_at_ > 0 && (for_ever_ ? calls_ >= fail_at_ : calls_ == fail_at_);
  failed_ = failed_ || fails;
  return fails ? code_ : SQLITE_OK;
}

FaultyDisk::Medium& FaultyDisk::medium(const char* name) {
  const auto [at, is_new] = media_.try_emplace(name);
  if (is_new) {
    std::ifstream file(name, std::ios::binary);
    at->second.synced.assign(std::istreambuf_iterator<char>(file), {});
  }
  return at->second;
}

void FaultyDisk::cut_power(const std::filesystem::path& folder, std::mt19937& chance) const {
  constexpr std::size_t kSector = 512;
  for (const auto& [name, medium] : media_) {
    std::string image = medium.synced;
    for (Change change : medium.since) {
      const auto fate = chance() % 3;
      if (fate == 0) continue;
      if (fate == 1) change.bytes.resize(std::min<std::size_t>(change.bytes.size(), chance() % 9 * kSector));
      lay_on(image, change);
    }
    std::ofstream(folder / std::filesystem::path(name).filename(), std::ios::binary) << image;
  }
}

}  // namespace tenth
