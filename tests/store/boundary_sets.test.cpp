#include "inkturn/store/boundary_sets.hpp"

#include "boundary_set.hpp"
#include "catch.hpp"
#include "inkturn/base/error.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/Database.h>

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;
using Catch::Matchers::EndsWith;
using Texts = std::vector<std::string>;

const BoundarySet example = set_of("June 2019", 62, {{"A*", 50}, {"A", 39}, {"E", 0}});

struct OnFile : StoreOnFile {
    bool add(const BoundarySet& set) {
        return change([&](Store::Change& open) { return BoundarySets(open).add(set); });
    }

    void remove(BoundarySetId id) {
        change([&](Store::Change& open) { BoundarySets(open).remove(id); });
    }

    std::vector<BoundarySetOnFile> all() { return BoundarySets::all(store); }

    /// `1 pure/June 2019/62: A*=50 A=39 E=0`
    Texts texts() {
        Texts texts;
        for (const auto& [id, set] : all()) {
            std::string text = std::to_string(static_cast<std::int64_t>(id)) + " " + set.subject + "/" +
                               set.name + "/" + std::to_string(set.total.count()) + ":";
            for (const GradeBoundary& boundary : set.grades)
                text += " " + boundary.grade + "=" + std::to_string(boundary.mark.count());
            texts.push_back(text);
        }
        return texts;
    }
};

} // namespace

TEST_CASE("boundary sets come back whole, by subject, then name, their grades from the top down") {
    OnFile on;
    CHECK(on.texts().empty());
    CHECK(on.add(example));
    CHECK(on.add(set_of("June 2018", 1'000'000, {{"z", 1'000'000}, {"a", 1}})));
    CHECK(on.add(set_of("June 2019", 75, {{"9", 70}}, "mechanics")));
    CHECK(on.add(set_of("June 2020", 300, {{"pass", 120}}, "")));
    on.reopen();
    CHECK(on.texts() == Texts{"4 /June 2020/300: pass=120", "3 mechanics/June 2019/75: 9=70",
                              "2 pure/June 2018/1000000: z=1000000 a=1",
                              "1 pure/June 2019/62: A*=50 A=39 E=0"});
}

TEST_CASE("a set that is on file already is left as it is, another of its name and subject is refused") {
    OnFile on;
    on.add(set_of("June 2018", 62, {{"A", 39}}));
    on.add(example);
    CHECK_FALSE(on.add(example));

    BoundarySet other = example;
    SECTION("with another mark") {
        other.grades[1].mark = Marks(40);
    }
    SECTION("with another name of a grade") {
        other.grades[1].grade = "B";
    }
    SECTION("with a grade less") {
        other.grades.pop_back();
    }
    SECTION("out of another total") {
        other.total = Marks(63);
    }
    CHECK_THROWS_WITH(on.add(other), "boundary set 'June 2019' of pure is on file with other marks");
    CHECK(on.texts().size() == 2);
    CHECK(on.texts().back() == "2 pure/June 2019/62: A*=50 A=39 E=0");
}

TEST_CASE("a set goes with its grades, and its number is not given again") {
    OnFile on;
    on.add(example);
    on.add(set_of("June 2020", 62, {{"A", 40}}));
    on.remove(BoundarySetId{2});
    CHECK(on.texts().size() == 1);
    on.add(set_of("June 2021", 62, {{"A", 41}}));
    CHECK(on.texts() == Texts{"1 pure/June 2019/62: A*=50 A=39 E=0", "3 pure/June 2021/62: A=41"});
    on.remove(BoundarySetId{1});
    on.remove(BoundarySetId{3});
    CHECK(on.texts().empty());
    CHECK(SQLite::Database(on.file).execAndGet("SELECT count(*) FROM boundary").getInt() == 0);
}

TEST_CASE("sets that were added with one that is refused are taken back") {
    OnFile on;
    on.add(example);
    {
        Store::Change change(on.store);
        BoundarySets sets(change);
        sets.add(set_of("June 2018", 62, {{"A", 38}}));
        CHECK_THROWS_AS(sets.add(set_of("June 2019", 62, {{"A", 38}})), Error);
    }
    CHECK(on.texts().size() == 1);
}

TEST_CASE("boundaries that can't be are a damaged store") {
    OnFile on;
    on.add(example);
    SQLite::Database(on.file, SQLite::OPEN_READWRITE).exec("UPDATE boundary SET mark = 50 WHERE grade = 'E'");
    CHECK_THROWS_WITH(
        on.all(), EndsWith("it is damaged: boundary set 'June 2019': grade E at 50 is not below A at 39: "
                           "give the grades from the top down, each with fewer marks than the one before"));
    CHECK_THROWS_AS(on.all(), StoreError);
}
