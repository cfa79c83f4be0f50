#include "store/file.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/change.hpp"
#include "store/migrations.hpp"
#include "store/older_layout.hpp"
#include "temp_folder.hpp"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include <algorithm>
#include <filesystem>
#include <iterator>
#include <string>
#include <sys/stat.h>
#include <unistd.h>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::EndsWith;
using Catch::Matchers::StartsWith;
using inkturn::test::bytes_of;
using inkturn::test::TempFolder;
using inkturn::test::write_bytes;

mode_t mode_of(const std::string& file) {
    struct stat status {};
    REQUIRE(::stat(file.c_str(), &status) == 0);
    return status.st_mode & 0777;
}

std::string opening(const std::string& file) {
    return "opening the store '" + file + "': ";
}

SQLite::Database raw(const std::string& file) {
    return SQLite::Database(file, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
}

/// Goes into another folder until the end of the scope.
class WorkingFolder {
  public:
    explicit WorkingFolder(const std::filesystem::path& folder) : before_(std::filesystem::current_path()) {
        std::filesystem::current_path(folder);
    }
    ~WorkingFolder() {
        std::error_code ignored;
        std::filesystem::current_path(before_, ignored);
    }
    WorkingFolder(const WorkingFolder&) = delete;
    WorkingFolder& operator=(const WorkingFolder&) = delete;

  private:
    std::filesystem::path before_;
};

} // namespace

TEST_CASE("a new store is readable only by its owner, whatever the umask") {
    const TempFolder folder;
    const mode_t before = ::umask(0);
    Store::open(folder.file("store"));
    ::umask(before);
    CHECK(mode_of(folder.file("store")) == 0600);
    // SQLite's journal is gone once the tables are there.
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 1);
}

TEST_CASE("a store carries its mark and the version of its tables") {
    const TempFolder folder;
    Store::open(folder.file("store"));
    SQLite::Database database = raw(folder.file("store"));
    CHECK(database.execAndGet("PRAGMA application_id").getInt() == 0x696E6B74);
    CHECK(database.execAndGet("PRAGMA user_version").getInt() == newest_store_version());
    CHECK(bytes_of(folder.file("store")).substr(68, 4) == "inkt");
}

TEST_CASE("all tables are strict") {
    const TempFolder folder;
    Store::open(folder.file("store"));
    SQLite::Database database = raw(folder.file("store"));
    SQLite::Statement tables(database, "PRAGMA table_list");
    int count = 0;
    while (tables.executeStep()) {
        const std::string name = tables.getColumn("name").getString();
        if (name.rfind("sqlite_", 0) == 0)
            continue;
        CAPTURE(name);
        CHECK(tables.getColumn("strict").getInt() == 1);
        ++count;
    }
    CHECK(count == 42);
}

TEST_CASE("a store is one file with a rollback journal, written through, wiped where it is deleted") {
    const TempFolder folder;
    const OpenedDatabase opened = open_database(folder.file("store"), {true, true, Day{}});
    CHECK(opened.writable);
    CHECK(opened.database->execAndGet("PRAGMA journal_mode").getString() == "delete");
    CHECK(opened.database->execAndGet("PRAGMA synchronous").getInt() == 3);
    CHECK(opened.database->execAndGet("PRAGMA secure_delete").getInt() == 1);
    CHECK(opened.database->execAndGet("PRAGMA foreign_keys").getInt() == 1);
    CHECK(opened.database->execAndGet("PRAGMA trusted_schema").getInt() == 0);
}

TEST_CASE("a store is not touched by opening it again") {
    const TempFolder folder;
    const std::string file = folder.file("store");
    Store::open(file);
    const std::string bytes = bytes_of(file);
    Store::open(file);
    Store::open_to_read(file);
    CHECK(bytes_of(file) == bytes);
}

TEST_CASE("a store from a newer version is refused, untouched") {
    const TempFolder folder;
    const std::string file = folder.file("store");
    Store::open(file);
    const int newer = newest_store_version() + 1;
    raw(file).exec("PRAGMA user_version = " + std::to_string(newer));
    const std::string bytes = bytes_of(file);
    CHECK_THROWS_WITH(Store::open(file), StartsWith(opening(file) + "it was written by a newer inkturn"));
    CHECK_THROWS_AS(Store::open_to_read(file), StoreError);
    CHECK(bytes_of(file) == bytes);
}

TEST_CASE("a file that isn't a database is refused by name, untouched") {
    const TempFolder folder;
    const std::string file = folder.file("notes.txt");
    for (const std::string& bytes :
         {std::string("k"), std::string("kk"), std::string("part,marks\n1,5\n"), std::string(5000, 'x')}) {
        write_bytes(file, bytes);
        CHECK_THROWS_WITH(Store::open(file),
                          opening(file) + "that is not an inkturn store; name another file");
        CHECK_THROWS_AS(Store::open_to_read(file), StoreError);
        CHECK(bytes_of(file) == bytes);
    }
}

TEST_CASE("another program's database is refused, untouched") {
    const TempFolder folder;
    const std::string file = folder.file("other");
    SECTION("with tables") {
        raw(file).exec("CREATE TABLE paper (id INTEGER)");
    }
    SECTION("with a mark of its own") {
        raw(file).exec("PRAGMA application_id = 7");
    }
    SECTION("with a version of its own") {
        raw(file).exec("PRAGMA user_version = 1");
    }
    const std::string bytes = bytes_of(file);
    REQUIRE_FALSE(bytes.empty());
    CHECK_THROWS_WITH(Store::open(file), StartsWith(opening(file) + "that is another program's database"));
    CHECK_THROWS_AS(Store::open_to_read(file), StoreError);
    CHECK(bytes_of(file) == bytes);
}

TEST_CASE("a folder is refused, and so is anything but a regular file") {
    const TempFolder folder;
    CHECK_THROWS_WITH(Store::open(folder.path().string()), EndsWith("that is a folder; name a file"));
    CHECK_THROWS_AS(Store::open_to_read(folder.path().string()), StoreError);
    CHECK_THROWS_WITH(Store::open("/dev/null"), EndsWith("that is not a regular file"));
}

TEST_CASE("an empty file becomes a store") {
    const TempFolder folder;
    write_bytes(folder.file("store"), "");
    const Store store = Store::open(folder.file("store"));
    CHECK(store.writable());
    CHECK(store.candidates().empty());
    CHECK(bytes_of(folder.file("store")).substr(0, 15) == "SQLite format 3");
}

TEST_CASE("a store in a folder that is not there can't be made") {
    const TempFolder folder;
    const std::string file = folder.file("nowhere/store");
    CHECK_THROWS_WITH(Store::open(file), StartsWith(opening(file)));
    CHECK_FALSE(std::filesystem::exists(folder.path() / "nowhere"));
}

TEST_CASE("to read where no store is makes no file, and finds nothing") {
    const TempFolder folder;
    Store store = Store::open_to_read(folder.file("store"));
    CHECK(std::filesystem::is_empty(folder.path()));
    CHECK(store.candidates().empty());
    CHECK(store.papers().empty());
    CHECK(store.exams().empty());
    CHECK(store.candidate("K07").sittings.empty());
    Store::Change(store).commit();
    CHECK(std::filesystem::is_empty(folder.path()));
}

TEST_CASE("a file that can't be written is opened for reading only") {
    if (::geteuid() == 0) {
        WARN("root may write any file: not tested");
        return;
    }
    const TempFolder folder;
    const std::string file = folder.file("store");
    Store::open(file);
    SECTION("the file") {
        ::chmod(file.c_str(), 0400);
    }
    SECTION("its folder") {
        ::chmod(folder.path().c_str(), 0500);
    }
    const std::string bytes = bytes_of(file);
    {
        Store store = Store::open_to_read(file);
        CHECK_FALSE(store.writable());
        CHECK(store.candidates().empty());
        CHECK_THROWS_AS(Store::Change(store), StoreError);
    }
    CHECK_THROWS_WITH(Store::open(file), StartsWith(opening(file) + "it can't be written"));
    CHECK(bytes_of(file) == bytes);
}

TEST_CASE("a file's name is a name, not a URI and not memory") {
    const TempFolder folder;
    const WorkingFolder inside(folder.path());
    for (const std::string name :
         {"file:x?mode=memory", ":memory:", "file::memory:", "a b'c\"d%20", "-store"}) {
        CAPTURE(name);
        {
            Store store = Store::open(name);
            Store::Change change(store);
            change.add_exam({"Paper", earliest_day, ""});
            change.commit();
        }
        CHECK(std::filesystem::is_regular_file(folder.path() / name));
        CHECK(Store::open_to_read(name).exams().size() == 1);
    }
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 5);
}

TEST_CASE("a store that another program holds is reported") {
    const TempFolder folder;
    const std::string file = folder.file("store");
    Store store = Store::open(file);
    SQLite::Database other = raw(file);
    other.exec("BEGIN EXCLUSIVE");
    CHECK_THROWS_WITH(Store::Change(store),
                      "writing the store '" + file +
                          "': another program is using it; try again when that is done");
    other.exec("ROLLBACK");
    Store::Change change(store);
    CHECK_NOTHROW(change.commit());
}

TEST_CASE("a store held by another program while it is opened is reported") {
    const TempFolder folder;
    const std::string file = folder.file("store");
    Store::open(file);
    SQLite::Database other = raw(file);
    other.exec("BEGIN EXCLUSIVE");
    CHECK_THROWS_WITH(Store::open(file),
                      opening(file) + "another program is using it; try again when that is done");
}

TEST_CASE("a damaged store is reported") {
    const TempFolder folder;
    const std::string file = folder.file("store");
    Store::open(file);
    std::string bytes = bytes_of(file);
    bytes.resize(bytes.size() / 2);
    bytes.replace(100, 400, 400, '\xFF');
    write_bytes(file, bytes);
    CHECK_THROWS_AS(Store::open_to_read(file), StoreError);
}

namespace {

/// A store of the layout before this one, with an exam in it.
std::string older_store(const TempFolder& folder) {
    std::string file = folder.file("older");
    {
        Store store = Store::open(file);
        Store::Change change(store);
        change.add_exam({"Paper", earliest_day, ""});
        change.commit();
    }
    raw(file).exec(std::string(inkturn::test::drop_since_12) + "PRAGMA user_version = 12");
    return file;
}

std::vector<std::string> files_in(const TempFolder& folder) {
    std::vector<std::string> names;
    for (const auto& entry : std::filesystem::directory_iterator(folder.path()))
        names.push_back(entry.path().filename().string());
    std::sort(names.begin(), names.end());
    return names;
}

} // namespace

TEST_CASE("a store of an older layout is brought up to date, and the copy kept meanwhile goes") {
    const TempFolder folder;
    const std::string file = older_store(folder);
    CHECK(Store::open(file).exams().size() == 1);
    CHECK(raw(file).execAndGet("PRAGMA user_version").getInt() == newest_store_version());
    CHECK(files_in(folder) == std::vector<std::string>{"older"});
}

TEST_CASE("a step to a newer layout that fails changes nothing, and a copy of the store is beside it") {
    const TempFolder folder;
    const std::string file = older_store(folder);
    raw(file).exec("CREATE TABLE checked (a)"); // stands in the way of the step that makes it
    const std::string bytes = bytes_of(file);
    CHECK_THROWS_AS(Store::open(file), StoreError);
    CHECK(bytes_of(file) == bytes);
    CHECK(files_in(folder) == std::vector<std::string>{"older", "older.layout-12"});
}

TEST_CASE("a store of an older layout that is not sound stays as it is") {
    const TempFolder folder;
    const std::string file = older_store(folder);
    raw(file).exec("INSERT INTO member (class, candidate) VALUES (7, 7)");
    const std::string bytes = bytes_of(file);
    CHECK_THROWS_AS(Store::open(file), StoreError);
    CHECK(bytes_of(file) == bytes);
}
