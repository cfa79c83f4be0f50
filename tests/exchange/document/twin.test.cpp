#include "exchange/document/twin.hpp"
#include "catch.hpp"
#include "exchange/document/stores.hpp"

using namespace inkturn;
using namespace inkturn::test;

namespace {

const Paper book({"book", "", "", std::nullopt, RetryBy::question}, {{"1", Marks(8), "", ""}});

void sit(Store& store, const std::string& code, Day day, int marks) {
    change(store, [&](Store::Change& open) {
        if (!open.store().find_paper("book"))
            open.add_paper(book);
        open.add_sitting(code, book, {day, {}, {full_marks(Marks(marks))}, {}});
    });
}

/// The export of a candidate who sat the paper twice.
Document exported() {
    Store store = empty_store();
    sit(store, "me", today - Days(7), 5);
    sit(store, "me", today, 6);
    return document_of(store, "me");
}

} // namespace

TEST_CASE("whoever has all sittings of an export, mark for mark, may be the one it is of") {
    Store store = empty_store();
    CHECK(find_twin(store, exported(), "K2").empty());
    sit(store, "K1", today - Days(7), 5);
    CHECK(find_twin(store, exported(), "K2").empty());
    sit(store, "K1", today, 6);
    CHECK(find_twin(store, exported(), "K2") == "K1");
    CHECK(find_twin(store, exported(), "K1").empty());

    SECTION("unless the one named has them too") {
        sit(store, "K2", today - Days(7), 5);
        CHECK(find_twin(store, exported(), "K2") == "K1");
        sit(store, "K2", today, 6);
        CHECK(find_twin(store, exported(), "K2").empty());
    }
}

TEST_CASE("other marks on one day tell two candidates apart") {
    Store store = empty_store();
    sit(store, "K1", today - Days(7), 5);
    sit(store, "K1", today, 7);
    CHECK(find_twin(store, exported(), "K2").empty());
}
