#include "catch.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/document/values.hpp"
#include "inkturn/store/change.hpp"
#include "inkturn/store/drawn_papers.hpp"

#include <functional>

using namespace inkturn;
using namespace inkturn::test;

namespace {

Paper paper(const std::string& id) {
    return Paper({id, "", "pure", std::nullopt, RetryBy::question},
                 {{"1", Marks(5), "", ""}, {"2", Marks(7), "", ""}});
}

/// Papers `a`, `d` and `e`; both questions of `d` and one of `e` were drawn from `a`.
Store drawn_store() {
    Store store = empty_store();
    change(store, [](Store::Change& open) {
        for (const char* id : {"a", "d", "e"})
            open.add_paper(paper(id));
        DrawnPapers drawn(open);
        drawn.note_copy({"a", "2"}, {"d", "1"});
        drawn.note_copy({"a", "1"}, {"d", "2"});
        drawn.note_copy({"a", "1"}, {"e", "1"});
    });
    return store;
}

void sit(Store& store, const std::string& id) {
    const Sitting sitting{today, {}, std::vector<PartMarks>(2, full_marks(Marks(5))), {}};
    change(store, [&](Store::Change& open) { open.add_sitting("me", paper(id), sitting); });
}

void take(Store& store, const Document& document) {
    change(store, [&](Store::Change& open) { CHECK(merge(open, document, {today}).conflicts.empty()); });
}

std::string text(const std::vector<Copies>& sets) {
    std::string all;
    for (const Copies& same : sets) {
        all += all.empty() ? "" : ", ";
        for (std::size_t i = 0; i < same.size(); ++i)
            all += (i == 0 ? "" : "=") + same[i].paper + same[i].question;
    }
    return all;
}

} // namespace

TEST_CASE("where drawn questions came from goes along, by the first of the copies, and is read back") {
    const Document document = document_of(drawn_store());
    CHECK(text(document.copies) == "a1=d2=e1, a2=d1");
    CHECK(text(read(value_of(document)).copies) == "a1=d2=e1, a2=d1");

    Store there = empty_store();
    take(there, document);
    CHECK(to_text(document_of(there)) == to_text(document));
    take(there, document);
    CHECK(to_text(document_of(there)) == to_text(document));
}

TEST_CASE("a document without drawn papers does not name copies") {
    Store store = empty_store();
    change(store, [](Store::Change& open) { open.add_paper(paper("a")); });
    const Json json = value_of(document_of(store));
    CHECK_FALSE(json.contains("copies"));
    CHECK(read(json).copies.empty());
}

TEST_CASE("copies on file and in the document that share a question are taken together") {
    Store here = empty_store();
    change(here, [](Store::Change& open) {
        open.add_paper(paper("a"));
        open.add_paper(paper("b"));
        DrawnPapers(open).note_copy({"a", "1"}, {"b", "2"});
    });
    take(here, document_of(drawn_store()));
    CHECK(text(document_of(here).copies) == "a1=b2=d2=e1, a2=d1");
}

TEST_CASE("one candidate's export has the papers that theirs were drawn from, and no other copies") {
    Store store = drawn_store();
    sit(store, "d");
    const Document document = document_of(store, "me");
    REQUIRE(document.papers.size() == 2);
    CHECK(document.papers[0]->id() == "a");
    CHECK(text(document.copies) == "a1=d2, a2=d1");
}

TEST_CASE("one candidate's export does not have what was drawn from their papers by others") {
    Store store = drawn_store();
    sit(store, "a");
    const Document document = document_of(store, "me");
    CHECK(document.papers.size() == 1);
    CHECK(document.copies.empty());
}

TEST_CASE("copies that can't be are refused with the way to them") {
    const auto refusal = [](const std::function<void(Json&)>& spoil) -> std::string {
        Json json = value_of(document_of(drawn_store()));
        spoil(json["copies"]);
        return test::refusal(json);
    };
    CHECK(refusal([](Json& copies) { copies[0][1]["paper"] = "x"; }) ==
          "copies[0][1].paper: paper x is not among the document's papers");
    CHECK(refusal([](Json& copies) { copies[0][1]["question"] = "9"; }) ==
          "copies[0][1].question: paper d has no question 9");
    CHECK(refusal([](Json& copies) { copies[1][0] = copies[0][0]; }) ==
          "copies[1][0]: question 1 of a is there twice");
    CHECK(refusal([](Json& copies) { copies[1].erase(1); }) == "copies[1]: copies are two questions or more");
    CHECK(refusal([](Json& copies) { copies[0][0]["part"] = "1a"; }) != "");
}
