#include "view/page/booklet_sheets.hpp"

#include "catch.hpp"

#include <memory>
#include <string>
#include <vector>

namespace {

using namespace inkturn;

Retry retry_of(const std::vector<int>& marks) {
    std::vector<Part> parts;
    for (const int max : marks)
        parts.push_back({"1" + std::string(1, static_cast<char>('a' + parts.size())), Marks(max), "", ""});
    Retry retry;
    retry.paper = std::make_shared<const Paper>(PaperHead{"pure-1", "", "", {}, RetryBy::question}, parts);
    retry.id = {SittingId{1}, "1", 1};
    return retry;
}

SharedPicture picture(std::uint32_t width, std::uint32_t height) {
    return std::make_shared<const Picture>(Picture{PictureKind::png, width, height, "bytes"});
}

BookletItem item(const std::vector<int>& marks, const std::vector<SharedPicture>& pictures = {}) {
    return {retry_of(marks), pictures, {}};
}

/// `2 1`: how many pieces each sheet has.
std::string sheets_of(const std::vector<BookletItem>& items) {
    std::string text;
    for (const BookletSheet& sheet : booklet_sheets({"K01", items}))
        text += (text.empty() ? "" : " ") + std::to_string(sheet.size());
    return text;
}

} // namespace

TEST_CASE("a retry has at least a line a mark, 4 to 16") {
    CHECK(min_working_lines(retry_of({1})) == 4);
    CHECK(min_working_lines(retry_of({4})) == 4);
    CHECK(min_working_lines(retry_of({5})) == 5);
    CHECK(min_working_lines(retry_of({16})) == 16);
    CHECK(min_working_lines(retry_of({17})) == 16);
}

TEST_CASE("a candidate without retries has no sheet") {
    CHECK(sheets_of({}).empty());
}

TEST_CASE("short retries share a sheet and keep their order") {
    CHECK(sheets_of({item({3})}) == "1");
    CHECK(sheets_of({item({3}), item({3}), item({3})}) == "3");
    CHECK(sheets_of({item({3}), item({3}), item({3}), item({3}), item({3})}) == "3 2");
    CHECK(sheets_of({item({16}), item({3}), item({16})}) == "1 1 1");
    const BookletOfCandidate candidate{"K01", {item({3}), item({4})}};
    const auto sheets = booklet_sheets(candidate);
    REQUIRE(sheets.size() == 1);
    CHECK(sheets[0][0].item == &candidate.items[0]);
    CHECK(sheets[0][1].item == &candidate.items[1]);
    CHECK((sheets[0][1].is_first && sheets[0][1].is_last));
}

TEST_CASE("pictures take their printed height of a sheet") {
    CHECK(sheets_of({item({3}, {picture(680, 150)}), item({3}, {picture(680, 150)})}) == "2");
    CHECK(sheets_of({item({3}, {picture(680, 500)}), item({3}, {picture(680, 500)})}) == "1 1");
    // Wider than the sheet it shrinks: 1360 x 500 is 180 x 66 mm.
    CHECK(sheets_of({item({3}, {picture(1360, 300)}), item({3}, {picture(1360, 300)})}) == "2");
}

TEST_CASE("a retry that needs more than a sheet begins on one of its own and goes on") {
    const BookletOfCandidate candidate{
        "K01", {item({3}), item({8}, {picture(680, 740), picture(680, 740)}), item({3})}};
    const auto sheets = booklet_sheets(candidate);
    REQUIRE(sheets.size() == 4);
    CHECK(sheets[0].size() == 1);
    const SheetPiece& first = sheets[1].front();
    CHECK((first.is_first && !first.is_last && first.first_picture == 0 && first.end_picture == 1));
    const SheetPiece& second = sheets[2].front();
    CHECK((!second.is_first && !second.is_last && second.first_picture == 1 && second.end_picture == 2));
    const SheetPiece& third = sheets[3].front();
    CHECK((third.is_last && third.first_picture == third.end_picture));
    CHECK(sheets[3].size() == 2); // the next retry shares the sheet of its lines
}

TEST_CASE("every retry is on the sheets once, with all its pictures and one space for working") {
    for (std::uint32_t height = 40; height <= 1200; height += 40)
        for (int marks = 1; marks <= 20; marks += 3) {
            const BookletOfCandidate candidate{
                "K01",
                {item({marks}, {picture(600, height), picture(600, height / 2 + 1)}), item({marks, 2}),
                 item({2}, {picture(600, height)})}};
            const std::vector<BookletItem>& items = candidate.items;
            std::vector<std::size_t> pictures(items.size());
            std::vector<int> spaces(items.size());
            for (const BookletSheet& sheet : booklet_sheets(candidate)) {
                CHECK_FALSE(sheet.empty());
                for (const SheetPiece& piece : sheet) {
                    const auto which = static_cast<std::size_t>(piece.item - items.data());
                    CHECK(piece.first_picture == pictures[which]);
                    pictures[which] = piece.end_picture;
                    spaces[which] += piece.is_last;
                }
            }
            CHECK(pictures == std::vector<std::size_t>{2, 0, 1});
            CHECK(spaces == std::vector<int>{1, 1, 1});
        }
}

TEST_CASE("in large print words and pictures take more of a sheet") {
    const BookletOfCandidate three{"K01", {item({3}), item({3}), item({3})}};
    CHECK(booklet_sheets(three).size() == 1);
    CHECK(booklet_sheets(three, PrintSize::large).size() == 3);
    const auto small = picture(200, 100);
    CHECK_THAT(printed_height(*small, PrintSize::large) / printed_height(*small),
               Catch::Matchers::WithinAbs(1.8, 1e-9));
    const auto wide = picture(1360, 500); // no wider than the sheet
    CHECK(printed_width(*wide, PrintSize::large) == max_picture_width);
}
