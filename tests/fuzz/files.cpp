#include "exchange/document/document.hpp"
#include "exchange/pdf/pages.hpp"
#include "exchange/picture/octets.hpp"
#include "exchange/picture/picture.hpp"
#include "exchange/workbook/workbook.hpp"
#include "fuzz/packing.hpp"
#include "fuzz/targets.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/base/utf8.hpp"
#include "inkturn/printed/paper.hpp"
#include "inkturn/store/check.hpp"
#include "inkturn/store/store.hpp"
#include "temp_folder.hpp"

#include <fstream>
#include <sstream>
#include <string>

namespace inkturn::fuzz {
namespace {

const Day today = Day(date::year{2026} / 11 / 25);

} // namespace

/// A file, or the parts of one.
void workbook(std::string_view input) {
    const std::string packed = is_workbook(input) ? std::string(input) : packed_parts(input);
    const WorkbookSheet sheet = read_workbook(packed, std::nullopt);
    for (const SheetCell& cell : sheet.cells())
        insist(is_utf8(cell.text));
}

/// What was read and written is read as the same.
void export_json(std::string_view input) {
    std::istringstream in{std::string(input)};
    const std::string text = to_text(read_document(in, today));
    std::istringstream again(text);
    insist(to_text(read_document(again, today)) == text);
}

void picture(std::string_view input) {
    PictureLimits limits;
    limits.pixels = 4'000'000;
    const Picture read =
        read_picture(begins_with(input, "\x89PNG") ? with_sums(input) : std::string(input), limits);
    insist(read_picture(read.bytes, limits).bytes == read.bytes);
}

/// In two halves, those of a paper and of its mark scheme, where a line says so.
void words_of_a_pdf(std::string_view input) {
    constexpr std::string_view between = "\nmark scheme\n";
    const std::size_t end = std::min(input.find(between), input.size());
    const PrintedPaper paper = recognise_paper(parse_printed_pages(input.substr(0, end)));
    if (end < input.size())
        recognise_scheme(parse_printed_pages(input.substr(end + between.size())), paper);
}

/// A store in another's place: all of it is read, and repaired.
void store_file(std::string_view input) {
    static const test::TempFolder folder;
    const std::string file = folder.file("store");
    for (const auto& left : std::filesystem::directory_iterator(folder.path()))
        std::filesystem::remove(left);
    std::ofstream(file, std::ios::binary) << input;
    {
        const Store store = Store::open_to_read(file);
        for (const StoreFault& fault : faults_of(store))
            insist(!fault.what.empty());
        to_text(document_of(store));
    }
    repair_store(file);
}

} // namespace inkturn::fuzz
