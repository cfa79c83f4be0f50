#include "inkturn/boundary_sets.hpp"

#include "inkturn/error.hpp"
#include "store/temp_folder.hpp"

#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
#else
#include <catch2/catch.hpp>
#endif

#include <SQLiteCpp/Database.h>

#include <string>
#include <utility>
#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::EndsWith;
using inkturn::test::TempFolder;
using Texts = std::vector<std::string>;

BoundarySet set_of(const std::string& name, const std::string& subject, int total,
                   const std::vector<std::pair<std::string, int>>& grades) {
    BoundarySet set{name, subject, Marks(total), {}};
    for (const auto& [grade, mark] : grades)
        set.grades.push_back({grade, Marks(mark)});
    return set;
}

const BoundarySet example = set_of("June 2019", "pure", 62, {{"A*", 50}, {"A", 39}, {"E", 0}});

struct OnFile {
    TempFolder folder;
    std::string file = folder.file("store");
    Store store = Store::open(file);

    bool add(const BoundarySet& set) {
        Store::Change change(store);
        const bool is_new = BoundarySets(store).add(set);
        change.commit();
        return is_new;
    }

    void remove(BoundarySetId id) {
        Store::Change change(store);
        BoundarySets(store).remove(id);
        change.commit();
    }

    std::vector<BoundarySetOnFile> all() { return BoundarySets(store).all(); }

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
    CHECK(on.add(set_of("June 2018", "pure", 1'000'000, {{"z", 1'000'000}, {"a", 1}})));
    CHECK(on.add(set_of("June 2019", "mechanics", 75, {{"9", 70}})));
    CHECK(on.add(set_of("June 2020", "", 300, {{"pass", 120}})));
    on.store = Store::open(on.file);
    CHECK(on.texts() == Texts{"4 /June 2020/300: pass=120", "3 mechanics/June 2019/75: 9=70",
                              "2 pure/June 2018/1000000: z=1000000 a=1",
                              "1 pure/June 2019/62: A*=50 A=39 E=0"});
}

TEST_CASE("a set that is on file already is left as it is, another of its name and subject is refused") {
    OnFile on;
    on.add(set_of("June 2018", "pure", 62, {{"A", 39}}));
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
    CHECK_THROWS_WITH(on.add(other), "boundary set 'June 2019' of pure is on file with other marks; 'inkturn "
                                     "boundaries remove 2' takes it off file first");
    CHECK(on.texts().size() == 2);
    CHECK(on.texts().back() == "2 pure/June 2019/62: A*=50 A=39 E=0");
}

TEST_CASE("a set goes with its grades, and its number is not given again") {
    OnFile on;
    on.add(example);
    on.add(set_of("June 2020", "pure", 62, {{"A", 40}}));
    on.remove(BoundarySetId{2});
    CHECK(on.texts().size() == 1);
    on.add(set_of("June 2021", "pure", 62, {{"A", 41}}));
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
        BoundarySets sets(on.store);
        sets.add(set_of("June 2018", "pure", 62, {{"A", 38}}));
        CHECK_THROWS_AS(sets.add(set_of("June 2019", "pure", 62, {{"A", 38}})), Error);
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
