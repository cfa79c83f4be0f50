// Writes three booklets for a browser to look at: of one retry, of a class with pictures, and an empty one;
// and letters, to a class, of texts that would break out of a page that let them, and none.
//
//     inkturn_write_booklets FOLDER

#include "view/page/booklet.hpp"
#include "view/page/letters.hpp"

#include <algorithm>
#include <cstdint>
#include <fstream>
#include <iostream>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace inkturn;

const DaySpan span{*read_iso_day("2026-12-09"), *read_iso_day("2026-12-16")};

std::string big_endian(std::uint32_t number) {
    std::string bytes;
    for (int shift = 24; shift >= 0; shift -= 8)
        bytes += static_cast<char>(number >> shift & 0xFF);
    return bytes;
}

/// CRC-32 as PNG wants it (ISO/IEC 15948, annex D).
std::uint32_t crc(const std::string& bytes) {
    std::uint32_t sum = 0xFFFFFFFF;
    for (const char byte : bytes) {
        sum ^= static_cast<unsigned char>(byte);
        for (int bit = 0; bit < 8; ++bit)
            sum = sum & 1 ? sum >> 1 ^ 0xEDB88320 : sum >> 1;
    }
    return ~sum;
}

std::string chunk(const std::string& type, const std::string& data) {
    return big_endian(static_cast<std::uint32_t>(data.size())) + type + data + big_endian(crc(type + data));
}

/// A zlib stream (RFC 1950) of blocks that are not compressed (RFC 1951).
std::string stored(const std::string& data) {
    constexpr std::size_t most = 65535;
    std::string stream = "\x78\x01";
    for (std::size_t start = 0; start < data.size(); start += most) {
        const std::size_t length = std::min(most, data.size() - start);
        stream += static_cast<char>(start + length == data.size());
        for (const std::size_t number : {length, most - length}) {
            stream += static_cast<char>(number & 0xFF);
            stream += static_cast<char>(number >> 8);
        }
        stream += data.substr(start, length);
    }
    std::uint32_t a = 1;
    std::uint32_t b = 0;
    for (const char byte : data) {
        a = (a + static_cast<unsigned char>(byte)) % 65521;
        b = (b + a) % 65521;
    }
    return stream + big_endian(b << 16 | a);
}

/// Black on white: a frame, and bars where a scan would have words.
bool is_ink(int x, int y, int width, int height) {
    if (x < 4 || y < 4 || x >= width - 4 || y >= height - 4)
        return true;
    const int line = y / 60;
    const bool within = x > 40 && x < width - 40 - 90 * (line % 3) && y > 40 && y < height - 40;
    return within && y % 60 > 20 && y % 60 < 42 && (x + 37 * line) % 140 < 110;
}

SharedPicture drawn_png(int width, int height) {
    std::string rows;
    for (int y = 0; y < height; ++y) {
        rows += '\0';
        for (int start = 0; start < width; start += 8) {
            unsigned byte = 0;
            for (int x = start; x < start + 8; ++x)
                byte = byte << 1 | (is_ink(x, y, width, height) ? 0U : 1U);
            rows += static_cast<char>(byte);
        }
    }
    const std::string head = big_endian(static_cast<std::uint32_t>(width)) +
                             big_endian(static_cast<std::uint32_t>(height)) + std::string("\1\0\0\0\0", 5);
    return std::make_shared<const Picture>(
        Picture{PictureKind::png, static_cast<std::uint32_t>(width), static_cast<std::uint32_t>(height),
                "\x89PNG\r\n\x1a\n" + chunk("IHDR", head) + chunk("IDAT", stored(rows)) + chunk("IEND", "")});
}

/// A segment of a JPEG file: its marker, its length, its data.
std::string segment(char marker, const std::string& data) {
    return std::string{'\xff', marker, '\0', static_cast<char>(data.size() + 2)} + data;
}

/// 64 x 32 pixels of middle grey (ITU-T T.81, baseline): each of its 32 blocks is two zero bits.
SharedPicture grey_jpeg() {
    const std::string one_code_of_one_bit = "\1" + std::string(16, '\0');
    const std::string file =
        "\xff\xd8" + segment('\xdb', '\0' + std::string(64, '\1')) +
        segment('\xc0', std::string("\x08\0\x20\0\x40\1\1\x11\0", 9)) +
        segment('\xc4', '\0' + one_code_of_one_bit) + segment('\xc4', '\x10' + one_code_of_one_bit) +
        segment('\xda', std::string("\1\1\0\0\x3f\0", 6)) + std::string(8, '\0') + "\xff\xd9";
    return std::make_shared<const Picture>(Picture{PictureKind::jpeg, 64, 32, file});
}

using PaperPointer = std::shared_ptr<const Paper>;

PaperPointer pure() {
    return std::make_shared<const Paper>(
        PaperHead{"pure-1", "Pure, first mock <June> & \"after\"", "pure", {}, RetryBy::question},
        std::vector<Part>{{"1", Marks(3), "", ""},
                          {"2a", Marks(2), "", ""},
                          {"2b", Marks(4), "", ""},
                          {"7a", Marks(2), "", ""},
                          {"7b", Marks(4), "", ""},
                          {"7c", Marks(6), "", ""},
                          {"8", Marks(5), "", ""}});
}

PaperPointer mechanics() {
    return std::make_shared<const Paper>(
        PaperHead{"mechanics-2019", "", "mechanics", {}, RetryBy::part},
        std::vector<Part>{{"A3c", Marks(1), "", ""}, {"A4", Marks(9), "", ""}});
}

Retry retry_of(const PaperPointer& paper, const char* question, const char* day) {
    Retry retry;
    retry.paper = paper;
    retry.question = *paper->find_question(question);
    retry.id = {SittingId{12}, question, 1};
    retry.missed_marks = Marks(1);
    retry.allowance = 72 * Seconds(retry.paper_question().marks.count());
    retry.day = read_iso_day(day);
    retry.dropped_on = *retry.day - Days{15};
    retry.window = Window{retry.dropped_on + Days{14}, retry.dropped_on + Days{21}, false};
    return retry;
}

Booklet of_one() {
    return {span, {{"K07", {{retry_of(pure(), "7", "2026-12-09"), {}, {}}}}}};
}

std::vector<BookletItem> first_of_class() {
    const PaperPointer paper = pure();
    return {{retry_of(paper, "1", "2026-12-09"), {drawn_png(1400, 300)}, {drawn_png(1200, 360)}},
            {retry_of(paper, "2", "2026-12-09"), {drawn_png(1400, 420), grey_jpeg()}, {grey_jpeg()}},
            {retry_of(paper, "7", "2026-12-11"), {drawn_png(900, 1200)}, {drawn_png(900, 1200)}},
            {retry_of(paper, "8", "2026-12-11"), {}, {}},
            {retry_of(mechanics(), "A4", "2026-12-16"), {drawn_png(600, 240)}, {}}};
}

std::vector<BookletItem> second_of_class() {
    const PaperPointer paper = pure();
    std::vector<BookletItem> items{
        {retry_of(paper, "1", "2026-12-10"), {drawn_png(1400, 300)}, {drawn_png(1200, 360)}},
        {retry_of(mechanics(), "A3c", "2026-12-10"), {drawn_png(500, 160)}, {}},
        {retry_of(paper, "8", "2026-12-12"), {}, {}}};
    items[0].retry.late = true;
    items[0].retry.window = Window{*read_iso_day("2026-11-27"), *read_iso_day("2026-12-04"), false};
    items[1].retry.window->squeezed = true;
    items[1].retry.id.turn = 3;
    items[2].retry.outside_window = true;
    return items;
}

std::vector<BookletItem> third_of_class() {
    const PaperPointer paper = pure();
    std::vector<BookletItem> items{
        {retry_of(paper, "1", "2026-12-09"), {drawn_png(1400, 300)}, {drawn_png(1200, 360)}},
        {retry_of(paper, "2", "2026-12-09"), {drawn_png(1400, 420), grey_jpeg()}, {grey_jpeg()}},
        {retry_of(paper, "8", "2026-12-15"), {}, {}},
        {retry_of(mechanics(), "A3c", "2026-12-15"), {drawn_png(500, 160)}, {}}};
    items[3].retry.day.reset();
    items[3].retry.window.reset();
    return items;
}

const char* const breaking_out = "</style></title><script>alert(1)</script> \"&amp;' K03";

/// Three candidates, twelve retries; the third bears a code that would break out of a page that let it.
Booklet of_class() {
    return {span, {{"K01", first_of_class()}, {"K02", second_of_class()}, {breaking_out, third_of_class()}}};
}

LetterRetry in_letter(BookletItem item) {
    item.retry.missed_marks = Marks(3);
    LetterRetry one{item.retry, {{{0, false, {}}, item.retry.dropped_on, {}, {}}}};
    for (const std::size_t part : item.retry.paper->question(item.retry.question).parts) {
        const Marks max = item.retry.paper->part(part).max;
        one.attempts[0].parts.push_back(PartMarks({Marks(0), Marks(1)}, max, Reason::method));
    }
    return one;
}

Letter letter_to(const std::string& code, const std::string& name, std::vector<BookletItem> items,
                 std::size_t times) {
    Letter letter{code, name, {}};
    for (std::size_t i = 0; i < times; ++i)
        for (const BookletItem& item : items)
            letter.retries.push_back(in_letter(item));
    return letter;
}

/// Of one retry, of five, and of more than a side takes.
Letters to_class() {
    const Day day = *read_iso_day("2026-12-09");
    return {span,
            span.last,
            day,
            {letter_to("K07", "", of_one().candidates[0].items, 1),
             letter_to("K01", "Zoë Ash", first_of_class(), 1), letter_to("K02", "", second_of_class(), 1),
             letter_to("K04", "", {}, 0), letter_to(breaking_out, breaking_out, first_of_class(), 4)}};
}

} // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::cerr << "inkturn_write_booklets: name the folder to write to\n";
        return 2;
    }
    const std::string folder = argv[1];
    const std::pair<const char*, Booklet> samples[] = {
        {"one", of_one()}, {"class", of_class()}, {"empty", {span, {}}}};
    std::vector<std::pair<std::string, std::string>> pages;
    for (const auto& [name, booklet] : samples)
        pages.emplace_back(name, to_html(booklet));
    pages.emplace_back("letters", to_html(to_class()));
    Letters large = to_class();
    large.size = PrintSize::large;
    pages.emplace_back("letters-large", to_html(large));
    pages.emplace_back("letters-empty", to_html(Letters{span, span.last, span.first, {}}));
    for (const auto& [name, html] : pages) {
        std::ofstream out(folder + "/" + name + ".html", std::ios::binary);
        out << html << std::flush;
        if (!out) {
            std::cerr << "inkturn_write_booklets: can't write " << folder << "/" << name << ".html\n";
            return 1;
        }
    }
    return 0;
}
