#include "exchange/document/drawn_ids.hpp"
#include "catch.hpp"
#include "exchange/document/stores.hpp"
#include "inkturn/practice/free_id.hpp"
#include "inkturn/store/drawn_papers.hpp"
#include "inkturn/store/printed_sets.hpp"

using namespace inkturn;
using namespace inkturn::test;

namespace {

Paper paper(const std::string& id, int marks = 8) {
    return Paper({id, "", "pure", std::nullopt, RetryBy::question}, {{"1", Marks(marks), "vectors", ""}});
}

/// A paper of one question, and the set that was drawn from it and sat by its candidate.
Store store_with(const std::string& source, const std::string& set, const std::string& code, int lost = 3) {
    Store store = empty_store();
    change(store, [&](Store::Change& open) {
        open.add_paper(paper(source));
        open.add_paper(paper(set));
        DrawnPapers(open).note_copy({source, "1"}, {set, "1"});
        open.add_sitting(code, paper(set), {today, {}, {full_marks(Marks(8 - lost))}, {}});
        PrintedSets(open).keep({set, today, code, ""});
    });
    return store;
}

std::string settled(const Store& store, Document& document) {
    std::string text;
    for (const DrawnId& id : settle_drawn_ids(store, std::nullopt, document))
        text += (text.empty() ? "" : ", ") + id.in_file + "->" + id.here;
    return text;
}

/// Takes the other store in, and says which ids were settled.
std::string take(Store& store, const Store& other) {
    Document document = document_of(other);
    std::string text = settled(store, document);
    CHECK(texts_of(merge_into(store, document).conflicts).empty());
    return text;
}

} // namespace

TEST_CASE("two people's sets of other questions stay two papers") {
    Store here = store_with("book-1", "set-vectors-1", "K1");
    const Store other = store_with("book-2", "set-vectors-1", "K2");
    CHECK(take(here, other) == "set-vectors-1->set-vectors-2");
    CHECK(here.candidate("K1").sittings.front().paper->id() == "set-vectors-1");
    CHECK(here.candidate("K2").sittings.front().paper->id() == "set-vectors-2");
    CHECK(DrawnPapers::copies(here) == std::vector<Copies>{{{"book-1", "1"}, {"set-vectors-1", "1"}},
                                                           {{"book-2", "1"}, {"set-vectors-2", "1"}}});

    SECTION("once more it is known by its questions") {
        const std::string before = text_of(here);
        CHECK(take(here, other) == "set-vectors-1->set-vectors-2");
        CHECK(text_of(here) == before);
    }
    SECTION("back where it comes from it has its old id") {
        Store back = store_with("book-2", "set-vectors-1", "K2");
        const std::string before = text_of(back);
        Document own = document_of(here, "K2");
        CHECK(settled(back, own) == "set-vectors-2->set-vectors-1");
        CHECK(texts_of(merge_into(back, own).conflicts).empty());
        CHECK(text_of(back) == before);
    }
}

TEST_CASE("the same set is one paper, unless it was printed for somebody else") {
    Store here = store_with("book-1", "set-vectors-1", "K1");
    CHECK(take(here, store_with("book-1", "set-vectors-1", "K1")).empty());
    CHECK(take(here, store_with("book-1", "set-vectors-1", "K2")) == "set-vectors-1->set-vectors-2");
    CHECK(take(here, store_with("book-1", "set-vectors-7", "K1")) == "set-vectors-7->set-vectors-1");
    CHECK(take(here, store_with("book-1", "set-vectors-7", "K3")).empty());
}

TEST_CASE("a set whose parts differ has an id of its own, wherever the document names it") {
    Store here = store_with("book-1", "set-vectors-1", "K1");
    Store other = empty_store();
    change(other, [](Store::Change& open) {
        open.add_paper(paper("book-2", 5));
        open.add_paper(paper("set-vectors-1", 5));
        DrawnPapers(open).note_copy({"book-2", "1"}, {"set-vectors-1", "1"});
        open.add_sitting("K2", paper("set-vectors-1", 5), {today, {}, {full_marks(Marks(2))}, {}});
        PrintedSets(open).keep({"set-vectors-1", today, "K2", ""});
    });
    CHECK(take(here, other) == "set-vectors-1->set-vectors-2");
    const std::vector<PrintedSet> printed = PrintedSets::all(here);
    REQUIRE(printed.size() == 2);
    CHECK(printed[1].paper == "set-vectors-2");
    CHECK(printed[1].candidate == "K2");
}

TEST_CASE("an ordinary paper keeps its id, and a drawn one makes way for it") {
    Store here = empty_store();
    change(here, [](Store::Change& open) { open.add_paper(paper("set-vectors-1", 3)); });
    CHECK(take(here, store_with("book-1", "set-vectors-1", "K1")) == "set-vectors-1->set-vectors-2");
}

TEST_CASE("a free id is the paper's own with the next number") {
    CHECK(next_free_id("set-vectors-1", {"set-vectors-1", "set-vectors-2"}) == "set-vectors-3");
    CHECK(next_free_id("practice", {"practice"}) == "practice-2");
    CHECK(next_free_id("p7", {"p7", "p7-2"}) == "p7-3");
    CHECK(next_free_id(std::string(64, 'a'), {}).size() == 59);
}
