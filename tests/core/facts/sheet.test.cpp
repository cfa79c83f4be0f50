#include "inkturn/facts/sheet.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"

#include <vector>

namespace {

using namespace inkturn;
using Catch::Matchers::Equals;
using Catch::Matchers::StartsWith;

constexpr Day today{date::year{2026} / date::November / 25};

Sheet sheet(int id, int days_ago, const std::vector<int>& facts) {
    std::vector<FactId> ids;
    for (const int fact : facts)
        ids.push_back(FactId{fact});
    Sheet made = sheet_of(ids, today - Days{days_ago});
    made.id = SheetId{id};
    return made;
}

Sheet logged(Sheet sheet, int days_ago, std::vector<int> missed) {
    sheet.log = take_log(sheet, std::move(missed), today - Days{days_ago}, today);
    return sheet;
}

} // namespace

TEST_CASE("a sheet numbers its rows from 1 and asks 45 seconds a fact") {
    const Sheet made = sheet(1, 0, {9, 4});
    REQUIRE(made.rows.size() == 2);
    CHECK(made.rows[0].number == 1);
    CHECK(made.rows[1].number == 2);
    CHECK(made.rows[1].fact == FactId{4});
    CHECK(made.duration() == Seconds(90));
    CHECK_FALSE(made.log);
}

TEST_CASE("a log keeps the rows missed in order") {
    const Sheet made = logged(sheet(1, 3, {9, 4, 5}), 2, {3, 1});
    CHECK(made.log->missed_rows == std::vector<int>{1, 3});
    CHECK(made.log->day == today - Days{2});
    CHECK(made.is_missed(1));
    CHECK_FALSE(made.is_missed(2));
    CHECK(made.is_missed(3));
    CHECK_FALSE(sheet(1, 3, {9}).is_missed(1));
}

TEST_CASE("a log is refused where the sheet has no such row, one is named twice, or the day can't be") {
    const Sheet made = sheet(4, 3, {9, 4});
    CHECK_THROWS_WITH(take_log(made, {3}, today, today), Equals("sheet 4 has no row 3"));
    CHECK_THROWS_WITH(take_log(made, {2, 2}, today, today),
                      Equals("row 2 is there twice: name each row missed once"));
    CHECK_NOTHROW(take_log(made, {}, today - Days{3}, today));
    CHECK_THROWS_WITH(take_log(made, {}, today - Days{4}, today),
                      Equals("sheet 4 on 2026-11-21: it was made for 2026-11-22; it is not filled in before "
                             "that"));
    CHECK_THROWS_AS(take_log(made, {}, today + Days{1}, today), Error);
    CHECK_THROWS_WITH(take_log(logged(made, 1, {}), {}, today, today),
                      Equals("sheet 4 was logged on 2026-11-24"));
}

TEST_CASE("a row whose fact was removed is no row any more") {
    Sheet made = sheet(4, 3, {9, 4, 5});
    made.rows.erase(made.rows.begin() + 1);
    CHECK_THROWS_AS(take_log(made, {2}, today, today), Error);
    CHECK_NOTHROW(take_log(made, {3}, today, today));
}

TEST_CASE("the open sheet of the same facts is found, in whatever order it asks them") {
    const std::vector<Sheet> sheets{sheet(1, 5, {1, 2}), logged(sheet(2, 4, {1, 2}), 4, {}),
                                    sheet(3, 4, {2, 1}), sheet(4, 4, {1, 2, 3})};
    REQUIRE(find_open_sheet(sheets, sheet(0, 0, {1, 2})));
    CHECK(find_open_sheet(sheets, sheet(0, 0, {1, 2}))->id == SheetId{3});
    CHECK(find_open_sheet(sheets, sheet(0, 0, {2})) == nullptr);
    CHECK(find_open_sheet({sheets[1]}, sheet(0, 0, {1, 2})) == nullptr);
}

TEST_CASE("a log is taken back unless a sheet filled in on a later day asks a fact of it again") {
    const Sheet first = logged(sheet(1, 9, {1, 2}), 5, {1});
    CHECK_NOTHROW(check_log_can_be_undone({first}, first));
    CHECK_NOTHROW(check_log_can_be_undone({first, logged(sheet(2, 9, {3}), 1, {})}, first));
    CHECK_NOTHROW(check_log_can_be_undone({first, sheet(2, 9, {1})}, first));
    CHECK_NOTHROW(check_log_can_be_undone({first, logged(sheet(2, 9, {1}), 6, {})}, first));
    const std::vector<Sheet> same_day{first, logged(sheet(2, 9, {2, 4}), 5, {})};
    CHECK_NOTHROW(check_log_can_be_undone(same_day, same_day[0]));
    CHECK_NOTHROW(check_log_can_be_undone(same_day, same_day[1]));
    const std::vector<Sheet> a_day_later{first, logged(sheet(2, 9, {2, 4}), 4, {})};
    CHECK_THROWS_WITH(check_log_can_be_undone(a_day_later, first),
                      "sheet 1: sheet 2 asked the same again, on " + iso(a_day_later[1].log->day));
    CHECK_NOTHROW(check_log_can_be_undone(a_day_later, a_day_later[1]));
    CHECK_THROWS_AS(check_log_can_be_undone({first}, sheet(3, 0, {1})), Error);
}

TEST_CASE("a fact fared last on the sheet filled in last, whenever it was made") {
    const auto last =
        last_recalls({logged(sheet(1, 9, {1, 2}), 2, {1}), logged(sheet(2, 8, {2, 1, 3}), 4, {1}),
                      logged(sheet(3, 8, {3}), 4, {}), sheet(4, 1, {5})});
    CHECK(last.size() == 3);
    CHECK(last.at(FactId{1}).missed);
    CHECK(last.at(FactId{1}).sheet == SheetId{1});
    CHECK(last.at(FactId{1}).day == today - Days{2});
    CHECK_FALSE(last.at(FactId{2}).missed);
    CHECK_FALSE(last.at(FactId{3}).missed);
    CHECK(last.at(FactId{3}).sheet == SheetId{3});
}

TEST_CASE("a sheet's number is read as it is written, and nothing else is") {
    CHECK(parse_sheet_id(to_text(SheetId{12})) == SheetId{12});
    CHECK_THROWS_AS(parse_sheet_id("0"), Error);
    CHECK_THROWS_AS(parse_sheet_id("1x"), Error);
    CHECK_THROWS_AS(parse_sheet_id("-1"), Error);
}
