#include "inkturn/store/backup.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/check.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/Database.h>

#include <filesystem>
#include <sys/stat.h>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

struct WithExam : StoreOnFile {
    WithExam() {
        change([](Store::Change& open) { open.add_exam({"Paper 1", day(40), ""}); });
    }
    std::string backup() {
        const std::string to = folder.file("backup");
        back_up(store, to);
        return to;
    }
    void add(const std::string& title) {
        change([&](Store::Change& open) { open.add_exam({title, day(50), ""}); });
    }
    std::size_t exams_on_file() {
        reopen();
        return store.exams().size();
    }
};

std::size_t exams_in(const std::string& file) {
    return Store::open_to_read(file).exams().size();
}

} // namespace

TEST_CASE("a backup holds what was on file, for its owner only, and never takes a file's place") {
    WithExam on;
    const std::string to = on.backup();
    CHECK(exams_in(to) == 1);
    struct stat status {};
    REQUIRE(::stat(to.c_str(), &status) == 0);
    CHECK((status.st_mode & 0777) == 0600);
    const std::string bytes = bytes_of(to);
    CHECK_THROWS_WITH(back_up(on.store, to), Contains("a file of that name exists"));
    CHECK(bytes_of(to) == bytes);
}

TEST_CASE("a backup holds nothing of a change that another program has not finished") {
    WithExam on;
    SQLite::Database other(on.file, SQLite::OPEN_READWRITE);
    other.exec("BEGIN IMMEDIATE");
    other.exec("DELETE FROM exam");
    CHECK(exams_in(on.backup()) == 1);
    other.exec("COMMIT");
    CHECK(on.exams_on_file() == 0);
}

TEST_CASE("a restore puts the backup in the store's place and keeps what was there") {
    WithExam on;
    const std::string backup = on.backup();
    on.add("Paper 2");
    const std::string bytes = bytes_of(backup);
    const std::string kept = restore_store(backup, on.file);
    CHECK(on.exams_on_file() == 1);
    CHECK(kept == on.file + ".before-restore");
    CHECK(exams_in(kept) == 2);
    CHECK(bytes_of(backup) == bytes);
    CHECK(restore_store(backup, on.file) == on.file + ".before-restore-2");
}

TEST_CASE("a restore waits for nobody who holds the store, and leaves it") {
    WithExam on;
    const std::string backup = on.backup();
    on.add("Paper 2");
    SQLite::Database other(on.file, SQLite::OPEN_READWRITE);
    other.exec("BEGIN EXCLUSIVE");
    CHECK_THROWS_AS(restore_store(backup, on.file), Error);
    other.exec("ROLLBACK");
    CHECK(on.exams_on_file() == 2);
}

TEST_CASE("a restore without a store makes it") {
    WithExam on;
    const std::string elsewhere = on.folder.file("elsewhere");
    CHECK(restore_store(on.backup(), elsewhere).empty());
    CHECK(exams_in(elsewhere) == 1);
}

TEST_CASE("a store that can't be read is kept as it is, and its journal gets into nothing") {
    WithExam on;
    const std::string backup = on.backup();
    const std::string wreck(5000, 'x');
    write_bytes(on.file, wreck);
    write_bytes(on.file + "-journal", "of the wreck");
    const std::string kept = restore_store(backup, on.file);
    CHECK(exams_in(on.file) == 1);
    CHECK(bytes_of(kept) == wreck);
    CHECK_FALSE(std::filesystem::exists(on.file + "-journal"));
}

TEST_CASE("a backup that is damaged, newer or the store itself is refused, and the store stays") {
    WithExam on;
    const std::string backup = on.backup();
    const auto doctored = [&](const char* sql) {
        SQLite::Database(backup, SQLite::OPEN_READWRITE).exec(sql);
    };
    std::string given = backup;
    SECTION("rows that belong to nothing") {
        doctored("INSERT INTO member (class, candidate) VALUES (7, 7)");
    }
    SECTION("newer") {
        doctored("PRAGMA user_version = 999");
    }
    SECTION("another program's") {
        doctored("PRAGMA application_id = 7");
    }
    SECTION("the store itself, under another name") {
        std::filesystem::remove(backup);
        std::filesystem::create_hard_link(on.file, backup);
    }
    SECTION("not there") {
        given = on.folder.file("nowhere");
    }
    on.add("Paper 2");
    const std::string bytes = bytes_of(on.file);
    CHECK_THROWS_AS(restore_store(given, on.file), Error);
    CHECK(bytes_of(on.file) == bytes);
    CHECK(std::distance(std::filesystem::directory_iterator(on.folder.path()), {}) <= 2);
}
