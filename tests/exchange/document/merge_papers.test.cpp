#include "catch.hpp"
#include "exchange/document/merge.hpp"
#include "exchange/document/pure_1_on_file.hpp"
#include "inkturn/store/change.hpp"

#include <functional>
#include <string>
#include <vector>

using namespace inkturn;
using namespace inkturn::test;

TEST_CASE("papers of one id that differ are in conflict, and never replaced") {
    const auto other = [](const std::function<void(PaperHead&, std::vector<Part>&)>& alter) {
        const auto paper = pure_1();
        PaperHead head{paper->id(), paper->title(), paper->subject(), paper->duration(), paper->retry_by()};
        std::vector<Part> parts = paper->parts();
        alter(head, parts);
        Store store = empty_store();
        const Paper altered(head, parts);
        change(store, [&](Store::Change& open) {
            open.add_paper(altered);
            open.add_sitting("K07", altered, {sat_on, {}, std::vector<PartMarks>(parts.size())});
        });
        return store;
    };
    const auto check = [](const Store& in_file, const std::string& differs) {
        const Lines expected{"paper pure-1: " + differs +
                             "; a paper is never replaced: correct one of the two, or, if they are two "
                             "papers, give one another id with 'inkturn paper amend pure-1 --id NEW'"};
        CHECK(conflicts(store_with(sitting("5 3 3")), in_file) == expected);
        CHECK(conflicts_replacing(store_with(sitting("5 3 3")), in_file) == expected);
    };
    check(other([](PaperHead& head, auto&) { head.title = "P1"; }),
          "the title is 'Pure' here, 'P1' in the file");
    check(other([](PaperHead& head, auto&) { head.subject = "mechanics"; }),
          "the subject is 'pure' here, 'mechanics' in the file");
    check(other([](PaperHead& head, auto&) { head.duration.reset(); }),
          "the duration is 1:00:00 here, not stated in the file");
    check(other([](PaperHead& head, auto&) { head.retry_by = RetryBy::part; }),
          "what it retries by is question here, part in the file");
    check(other([](PaperHead&, auto& parts) { parts[1].label = "7c"; }), "a part is 7a here, 7c in the file");
    check(other([](PaperHead&, auto& parts) { parts[2].max = Marks(4); }),
          "part 7b, marks is 3 here, 4 in the file");
    check(other([](PaperHead&, auto& parts) { parts[0].topic = "series"; }),
          "part 1, topic is 'surds' here, 'series' in the file");
    check(other([](PaperHead&, auto& parts) { parts[0].codes = "A5"; }),
          "part 1, codes is 'M5' here, 'A5' in the file");
    check(other([](PaperHead&, auto& parts) { parts.pop_back(); }),
          "the count of parts is 3 here, 2 in the file");
}

TEST_CASE("what one of two papers leaves open is taken from the other") {
    const Paper whole({"p", "Title", "pure", std::nullopt, RetryBy::question},
                      {{"1", Marks(2), "surds", "M1 A1"}, {"2", Marks(1), "series", "B1"}});
    const Paper bare({"p", "", "", std::nullopt, RetryBy::question},
                     {{"1", Marks(2), "", ""}, {"2", Marks(1), "", ""}});
    const Paper half({"p", "Title", "", std::nullopt, RetryBy::question},
                     {{"1", Marks(2), "surds", ""}, {"2", Marks(1), "", "B1"}});
    const Paper other_half({"p", "", "pure", std::nullopt, RetryBy::question},
                           {{"1", Marks(2), "", "M1 A1"}, {"2", Marks(1), "series", ""}});
    const auto store_of = [](const Paper& paper) {
        Store store = empty_store();
        change(store, [&](Store::Change& open) {
            open.add_paper(paper);
            open.add_sitting("K07", paper, {sat_on, {}, std::vector<PartMarks>(2)});
        });
        return store;
    };
    const std::string expected = text_of(store_of(whole));
    const auto check = [&](const Paper& here, const Paper& in_file, bool completes) {
        Store store = store_of(here);
        const Merge done = merge_into(store, store_of(in_file));
        CHECK(done.conflicts.empty());
        CHECK(done.papers_completed == (completes ? 1 : 0));
        CHECK(done.papers_unchanged == (completes ? 0 : 1));
        CHECK(text_of(store) == expected);
    };
    check(bare, whole, true);
    check(whole, bare, false);
    check(half, other_half, true);
    check(other_half, half, true);
    check(whole, whole, false);
}
