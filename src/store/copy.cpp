#include "store/copy.hpp"

#include "inkturn/base/error.hpp"
#include "store/file.hpp"
#include "store/soundness.hpp"

#include <SQLiteCpp/Backup.h>
#include <sqlite3.h>

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <unistd.h>

namespace inkturn {
namespace {

[[noreturn]] void refuse_copy(const std::string& to, const std::string& why,
                              Error::Kind kind = Error::Kind::unwritable) {
    throw Error("'" + to + "' can't be written: " + why, kind);
}

/// A new file beside the one wanted, readable by its owner only; removed at the end of its scope.
class NewFile {
  public:
    explicit NewFile(const std::string& wanted)
        : wanted_(wanted), name_(wanted + ".XXXXXX"), journal_(name_ + "-journal") {
        const int descriptor = ::mkstemp(name_.data());
        if (descriptor < 0)
            refuse_copy(wanted_, std::strerror(errno));
        ::close(descriptor);
        journal_.replace(0, name_.size(), name_);
    }
    ~NewFile() {
        ::unlink(name_.c_str());
        ::unlink(journal_.c_str());
    }
    NewFile(const NewFile&) = delete;
    NewFile& operator=(const NewFile&) = delete;

    const std::string& name() const { return name_; }

    void sync() const {
        const int descriptor = ::open(name_.c_str(), O_RDWR | O_CLOEXEC);
        const bool synced = descriptor >= 0 && ::fsync(descriptor) == 0;
        if (descriptor >= 0)
            ::close(descriptor);
        if (!synced)
            refuse_copy(wanted_, std::strerror(errno));
    }

    /// Never in the place of a file that is there.
    void take_its_name() const {
        if (::link(name_.c_str(), wanted_.c_str()) != 0)
            refuse_copy(wanted_,
                        errno == EEXIST ? "a file of that name exists; name another" : std::strerror(errno),
                        errno == EEXIST ? Error::Kind::conflict : Error::Kind::unwritable);
        sync_folder_of(wanted_);
    }

  private:
    std::string wanted_;
    std::string name_;
    std::string journal_; ///< put together beforehand: where memory has run out it is still removed
};

[[noreturn]] void refuse_damaged(const std::string& to, const std::string& fault) {
    throw Error("what is on file is damaged (" + fault + "), so '" + to + "' was not written",
                Error::Kind::damaged);
}

void check_copy(SQLite::Database& copy, const std::string& to) {
    if (const std::string fault = first_fault(copy); !fault.empty())
        refuse_damaged(to, fault);
}

bool is_damage(const SQLite::Exception& failure) {
    return (failure.getErrorCode() & 0xFF) == SQLITE_NOTADB || kind_of(failure) == Error::Kind::damaged;
}

template <typename Check>
void copy_and(SQLite::Database& from, const std::string& to, const Check& check) {
    if (::access(to.c_str(), F_OK) == 0)
        refuse_copy(to, "a file of that name exists; name another", Error::Kind::conflict);
    const NewFile file(to);
    try {
        SQLite::Database copy(file.name(), SQLite::OPEN_READWRITE);
        SQLite::Backup(copy, from).executeStep();
        check(copy);
    } catch (const SQLite::Exception& failure) {
        if (is_damage(failure))
            refuse_damaged(to, "it can't be read");
        refuse_copy(to, explained(failure), kind_of(failure));
    }
    file.sync();
    file.take_its_name();
}

} // namespace

void copy_database(SQLite::Database& from, const std::string& to) {
    copy_and(from, to, [&](SQLite::Database& copy) { check_copy(copy, to); });
}

void copy_damaged_database(SQLite::Database& from, const std::string& to) {
    copy_and(from, to, [](SQLite::Database&) {});
}

std::string free_name(const std::string& name) {
    std::string found = name;
    for (int number = 2; ::access(found.c_str(), F_OK) == 0; ++number)
        found = name + "-" + std::to_string(number);
    return found;
}

void sync_folder_of(const std::string& file) {
    const std::string folder = std::filesystem::path(file).parent_path().string();
    const int descriptor = ::open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (descriptor < 0)
        return;
    ::fsync(descriptor); // some file systems can't; the file itself is on the disk
    ::close(descriptor);
}

} // namespace inkturn
