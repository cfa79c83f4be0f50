#include "inkturn/store/closed_classes.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/store/check.hpp"
#include "papers.hpp"
#include "refusal.hpp"
#include "store/store_on_file.hpp"

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::Contains;

struct ClosedStore : StoreOnFile {
    ClosedStore() {
        change([](Store::Change& open) {
            open.add_paper(*paper_of("p", {5, 10}));
            open.add_paper(*paper_of("q", {5}));
        });
    }
    bool add(const ClosedClassFigures& figures) {
        return change([&](Store::Change& open) { return ClosedClasses(open).add(figures); });
    }
};

ClosedClassFigures figures_of(const std::string& of_class, const std::string& paper, int on) {
    return {of_class,
            day(on),
            paper,
            {{"2", Marks(10), 7, Marks(20), Marks(30)}, {"1", Marks(5), 7, Marks(9), Marks(9)}}};
}

} // namespace

TEST_CASE("figures of closed classes come back by day, class and paper, their parts in the paper's order") {
    ClosedStore on;
    CHECK(on.add(figures_of("tuesday", "p", 3)));
    CHECK(on.add({"tuesday", day(3), "q", {{"1", Marks(5), 6, Marks(2), Marks(3)}}}));
    CHECK(on.add(figures_of("evening", "p", 1)));
    CHECK_FALSE(on.add(figures_of("tuesday", "p", 3)));
    on.reopen();
    const auto all = ClosedClasses::all(on.store);
    REQUIRE(all.size() == 3);
    CHECK(all[0].of_class == "evening");
    CHECK(all[1].paper == "p");
    CHECK(all[1].parts.at(0) == PartFigures{"1", Marks(5), 7, Marks(9), Marks(9)});
    CHECK(all[1].parts.at(1) == PartFigures{"2", Marks(10), 7, Marks(20), Marks(30)});
    CHECK(all[2].paper == "q");
    CHECK(ClosedClasses::of(on.store, "q").size() == 1);
    CHECK(faults_of(on.store).empty());
}

TEST_CASE("figures go with their paper, and none are kept of a paper that is not on file") {
    ClosedStore on;
    on.add(figures_of("tuesday", "p", 3));
    on.change([](Store::Change& open) { open.remove_paper("p"); });
    CHECK(ClosedClasses::all(on.store).empty());
    CHECK_THAT(refusal_of([&] { on.add(figures_of("tuesday", "r", 3)); }), Contains("no paper r on file"));
    CHECK_THAT(refusal_of([&] { on.add({"tuesday", day(3), "q", {}}); }), Contains("have no part"));
}
