#include "inkturn/store/question_bank.hpp"

#include "catch.hpp"
#include "days.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/changes.hpp"
#include "inkturn/store/printed_sets.hpp"
#include "inkturn/store/topic_lists.hpp"
#include "papers.hpp"
#include "store/older_layout.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/Database.h>

#include <map>
#include <set>
#include <string>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Ids = std::set<std::string>;

struct BankOnFile : StoreOnFile {
    BankOnFile() {
        change([](Store::Change& open) {
            open.add_paper(*paper_of("p1", {10, 5}));
            open.add_paper(*paper_of("p2", {4}));
        });
    }

    void keep_set(const PrintedSet& set) {
        change([&](Store::Change& open) { PrintedSets(open).keep(set); });
    }

    std::string sets() const {
        std::string all;
        for (const PrintedSet& set : PrintedSets::all(store))
            all += (all.empty() ? "" : ", ") + set.paper + " " + iso(set.day) + " " + set.candidate +
                   set.of_class;
        return all;
    }
};

} // namespace

TEST_CASE("a paper is kept unseen until it is no longer") {
    BankOnFile on;
    CHECK(QuestionBank::kept_unseen(on.store).empty());
    on.change([](Store::Change& open) { QuestionBank(open).set_kept_unseen("p1", true); });
    on.reopen();
    CHECK(QuestionBank::kept_unseen(on.store) == Ids{"p1"});
    on.change([](Store::Change& open) { QuestionBank(open).set_kept_unseen("p1", false); });
    CHECK(QuestionBank::kept_unseen(on.store).empty());
    Store::Change change(on.store);
    CHECK_THROWS_AS(QuestionBank(change).set_kept_unseen("p3", true), Error);
}

TEST_CASE("papers are found by the day on which they were put on file, those of which none is known never") {
    BankOnFile on;
    on.change([](Store::Change& open) { QuestionBank(open).set_added("p1", day(10)); });
    CHECK(QuestionBank::added_since(on.store, day(10)) == Ids{"p1"});
    CHECK(QuestionBank::added_since(on.store, day(11)).empty());
    CHECK(QuestionBank::added_since(on.store, day(-100)) == Ids{"p1"});
}

TEST_CASE("printed words are kept by part") {
    BankOnFile on;
    on.change([](Store::Change& open) { QuestionBank(open).set_words("p1", {{"2", "Find the angle"}}); });
    on.reopen();
    CHECK(QuestionBank::words(on.store) ==
          std::map<std::string, PartWords>{{"p1", {{"2", "Find the angle"}}}});
    Store::Change change(on.store);
    CHECK_THROWS_AS(QuestionBank(change).set_words("p1", {{"3", "no such part"}}), Error);
    CHECK_THROWS_AS(QuestionBank(change).set_words("p1", {{"1", std::string(201, 'a')}}), Error);
}

TEST_CASE("a list of topics is kept in its order, one a subject, and taken back") {
    BankOnFile on;
    const TopicList pure({{"vectors"}, {"algebra"}, {"surds", "algebra"}});
    on.change([&](Store::Change& open) { TopicLists(open).keep("pure", pure); });
    on.change([&](Store::Change& open) {
        TopicLists(open).keep("mechanics", TopicList(std::vector<ListedTopic>{{"moments"}}));
    });
    on.reopen();
    CHECK(TopicLists::of(on.store, "pure").topics() == pure.topics());
    CHECK(TopicLists::all(on.store).size() == 2);
    on.change([&](Store::Change& open) {
        TopicLists(open).keep("pure", TopicList(std::vector<ListedTopic>{{"vectors"}}));
    });
    CHECK(TopicLists::of(on.store, "pure").topics().size() == 1);
    ChangesOnFile::take_back(on.store, ChangesOnFile::find_last(on.store)->id);
    CHECK(TopicLists::of(on.store, "pure").topics().size() == 3);
    on.change([&](Store::Change& open) { TopicLists(open).keep("pure", {}); });
    CHECK(TopicLists::of(on.store, "pure").empty());
}

TEST_CASE("a printed set is for nobody where its candidate has nothing else on file any more") {
    BankOnFile on;
    on.change([](Store::Change& open) {
        open.add_class("tuesday");
        open.add_member("tuesday", "K07");
        open.add_member("tuesday", "K08");
    });
    on.keep_set({"p1", day(3), "K07", ""});
    on.change([](Store::Change& open) { open.remove_class("tuesday"); });
    CHECK(on.store.candidates().empty());
    CHECK(on.sets() == "p1 " + iso(day(3)) + " ");
}

TEST_CASE("a printed set goes with its paper, and is for nobody without its candidate or class") {
    BankOnFile on;
    on.change([](Store::Change& open) {
        open.add_class("tuesday");
        open.add_member("tuesday", "K07");
    });
    on.keep_set({"p1", day(3), "K07", ""});
    on.keep_set({"p2", day(2), "", "tuesday"});
    on.reopen();
    CHECK(on.sets() == "p2 " + iso(day(2)) + " tuesday, p1 " + iso(day(3)) + " K07");
    on.keep_set({"p1", day(4), "", ""});
    CHECK(on.sets() == "p2 " + iso(day(2)) + " tuesday, p1 " + iso(day(4)) + " ");
    on.keep_set({"p1", day(3), "K07", ""});
    on.change([](Store::Change& open) { open.erase_candidate("K07"); });
    CHECK(on.sets() == "p2 " + iso(day(2)) + " tuesday, p1 " + iso(day(3)) + " ");
    on.change([](Store::Change& open) { open.remove_class("tuesday"); });
    CHECK(on.sets() == "p2 " + iso(day(2)) + " , p1 " + iso(day(3)) + " ");
    on.change([](Store::Change& open) { open.remove_paper("p1"); });
    CHECK(on.sets() == "p2 " + iso(day(2)) + " ");
    Store::Change change(on.store);
    CHECK_THROWS_AS(PrintedSets(change).keep({"p1", day(3), "", ""}), Error);
}

TEST_CASE("a store of version 13 gets what a bank of questions needs") {
    BankOnFile on;
    SQLite::Database(on.file, SQLite::OPEN_READWRITE)
        .exec(std::string(drop_since_13) + "PRAGMA user_version = 13");
    Store store = Store::open(on.file);
    CHECK(store.papers().size() == 2);
    CHECK(QuestionBank::kept_unseen(store).empty());
    CHECK(QuestionBank::words(store).empty());
    CHECK(QuestionBank::added_since(store, day(0)).empty());
    CHECK(TopicLists::all(store).empty());
    CHECK(PrintedSets::all(store).empty());
}
