#include "inkturn/store/reading.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>

namespace {

using namespace inkturn;
using namespace inkturn::test;

/// A store and another program beside it, which waits for nothing.
struct Shared : StoreOnFile {
    SQLite::Database other{file, SQLite::OPEN_READWRITE};

    bool other_can_add_a_class(const std::string& name) {
        try {
            other.exec("INSERT INTO class (name) VALUES ('" + name + "')");
            return true;
        } catch (const SQLite::Exception&) {
            return false;
        }
    }
};

} // namespace

TEST_CASE("nobody changes the store while it is read as a whole") {
    Shared shared;
    {
        const Reading whole(shared.store);
        CHECK(shared.store.classes().empty());
        CHECK_FALSE(shared.other_can_add_a_class("monday"));
        CHECK(shared.store.classes().empty());
    }
    CHECK(shared.other_can_add_a_class("monday"));
    CHECK(shared.store.classes().size() == 1);
}

TEST_CASE("a reading within a reading ends with the outer one") {
    Shared shared;
    {
        const Reading whole(shared.store);
        CHECK(shared.store.candidate("K07").sittings.empty());
        CHECK_FALSE(shared.other_can_add_a_class("monday"));
    }
    CHECK(shared.other_can_add_a_class("monday"));
}

TEST_CASE("reading inside a change leaves the change open") {
    Shared shared;
    Store::Change change(shared.store);
    change.add_class("tuesday");
    {
        const Reading whole(shared.store);
        CHECK(shared.store.classes().size() == 1);
    }
    change.add_class("thursday");
    change.commit();
    CHECK(Store::open(shared.file).classes().size() == 2);
}

TEST_CASE("a reading that is ended by an exception gives the store free") {
    Shared shared;
    try {
        const Reading whole(shared.store);
        shared.store.members("nobody");
        FAIL("a class that is not on file was read");
    } catch (const Error&) {
    }
    CHECK(shared.other_can_add_a_class("monday"));
}
