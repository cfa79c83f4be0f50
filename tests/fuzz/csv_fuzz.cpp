#include "exchange/class/class_file.hpp"
#include "exchange/csv/csv.hpp"
#include "exchange/csv/paper.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <sstream>
#include <string>
#include <string_view>
#include <vector>

using namespace inkturn;

namespace {

void insist(bool holds) {
    if (!holds)
        std::abort();
}

/// What a reader makes of a text: its cells with their places, and the problem that ends it.
std::string account_of(const std::string& text, const CsvOptions& options) {
    std::istringstream in(text);
    std::string account;
    try {
        CsvReader reader(in, options);
        while (reader.next())
            for (std::size_t i = 0; i < reader.cells().size(); ++i)
                account.append(std::to_string(reader.line(i)) + ':' + std::to_string(reader.column(i)) + ' ')
                    .append(reader.cells()[i])
                    .append("\n");
    } catch (const UnreadableFile& error) {
        account += std::to_string(error.problem().line) + ':' + std::to_string(error.problem().column) + ' ' +
                   error.problem().message;
    }
    return account;
}

std::shared_ptr<const Paper> paper_on_file(const std::string& id) {
    if (id != "pure-1")
        return nullptr;
    return std::make_shared<const Paper>(
        PaperHead{id, "", "", {}, {}}, std::vector<Part>{{"1", Marks(5), "", ""}, {"2a", Marks(4), "", ""}});
}

/// Marks that were read without a problem are marks that the paper allows.
void check_class(const ClassFile& csv) {
    insist(csv.problems.items.size() <= csv.problems.count);
    if (!csv.problems.empty())
        return;
    for (const ClassSitting& sitting : csv.sittings) {
        const Paper& paper = *csv.papers.at(sitting.paper).paper;
        insist(sitting.candidate < csv.candidates.size() && sitting.parts.size() == paper.parts().size());
        for (std::size_t i = 0; i < sitting.parts.size(); ++i) {
            const PartMarks& marks = sitting.parts[i];
            insist(marks.unaided() + marks.corrected() <= paper.parts()[i].max);
            insist(marks.attempted() || marks.unaided() == Marks(0));
        }
    }
}

void check_files(const std::string& text, const CsvOptions& options) {
    ClassFileOptions with_paper{"pure-1", Day(date::year{2026} / 11 / 20), Day(date::year{2026} / 11 / 25)};
    std::istringstream of_old(text), of_new(text), of_paper(text);
    CsvReader old_rows(of_old, options), new_rows(of_new, options);
    check_class(read_class(old_rows, with_paper, paper_on_file));
    with_paper.paper = "new-2";
    check_class(read_class(new_rows, with_paper, paper_on_file));
    ProblemList problems;
    CsvReader rows_of_paper(of_paper, options);
    const auto parts = read_paper_rows(rows_of_paper, problems);
    if (problems.empty())
        Paper(PaperHead{"any", "", "", {}, {}}, parts);
}

} // namespace

/// The first byte chooses the options; the rest is the file.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0)
        return 0;
    const std::string text(reinterpret_cast<const char*>(data) + 1, size - 1);
    CsvOptions options;
    options.windows_1252 = (data[0] & 1) != 0;
    if ((data[0] & 2) != 0)
        options.delimiter = ';';
    const std::string whole = account_of(text, options);
    options.chunk = 1 + (data[0] >> 2);
    insist(account_of(text, options) == whole);
    check_files(text, options);
    return 0;
}
