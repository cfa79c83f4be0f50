#include "exchange/class/class_file.hpp"
#include "exchange/class/retried_file.hpp"
#include "exchange/csv/boundaries.hpp"
#include "exchange/csv/csv.hpp"
#include "exchange/csv/facts.hpp"
#include "exchange/csv/paper.hpp"
#include "exchange/csv/wishes.hpp"
#include "fuzz/targets.hpp"

#include <memory>
#include <sstream>
#include <string>
#include <vector>

namespace inkturn::fuzz {
namespace {

const Day today = Day(date::year{2026} / 11 / 25);

/// The first byte chooses how the rest is read.
struct Csv {
    explicit Csv(std::string_view input) : text(input.substr(input.empty() ? 0 : 1)) {
        const unsigned char first = input.empty() ? 0 : static_cast<unsigned char>(input.front());
        options.windows_1252 = (first & 1U) != 0;
        if ((first & 2U) != 0)
            options.delimiter = ';';
        piece = 1 + (first >> 2U);
    }

    std::string text;
    CsvOptions options;
    std::size_t piece; ///< bytes to read at a time
};

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

template <typename Read>
auto read_with(const Csv& csv, Read read) {
    std::istringstream in(csv.text);
    CsvReader rows(in, csv.options);
    ProblemList problems;
    auto content = read(rows, problems);
    insist(problems.items.size() <= problems.count);
    return std::pair(std::move(content), problems.empty());
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

ClassFile class_in(const Csv& csv, const std::string& paper) {
    std::istringstream in(csv.text);
    CsvReader rows(in, csv.options);
    return read_class(rows, {paper, Day(date::year{2026} / 11 / 20), today}, paper_on_file);
}

} // namespace

void paper_csv(std::string_view input) {
    Csv csv(input);
    const std::string whole = account_of(csv.text, csv.options);
    CsvOptions in_pieces = csv.options;
    in_pieces.chunk = csv.piece;
    insist(account_of(csv.text, in_pieces) == whole);
    const auto [parts, is_whole] = read_with(csv, read_paper_rows);
    if (is_whole)
        Paper(PaperHead{"any", "", "", {}, {}}, parts);
}

void class_csv(std::string_view input) {
    const Csv csv(input);
    check_class(class_in(csv, "pure-1"));
    check_class(class_in(csv, "new-2"));
}

void wishes_csv(std::string_view input) {
    const auto [wishes, is_whole] = read_with(Csv(input), [](Rows& rows, ProblemList& problems) {
        return read_wishes_rows(rows, {{"vectors", "surds"}, {"K99"}}, problems);
    });
    for (const Wish& wish : wishes)
        for (const std::string& topic : wish.topics)
            insist(!is_whole || topic == "vectors" || topic == "surds");
}

void boundaries_csv(std::string_view input) {
    const auto [sets, is_whole] = read_with(Csv(input), read_boundaries_rows);
    for (const BoundarySet& set : sets)
        if (is_whole)
            check_boundary_set(set);
}

void facts_csv(std::string_view input) {
    const FactsContext met{"pure", {Fact{{}, "sin 30", "1/2", "angles", "pure"}}, false};
    const auto [facts, is_whole] = read_with(
        Csv(input), [&](Rows& rows, ProblemList& problems) { return read_facts_rows(rows, met, problems); });
    for (const Fact& fact : facts)
        if (is_whole)
            check_fact(fact);
}

void retried_csv(std::string_view input) {
    const Csv csv(input);
    std::istringstream in(csv.text);
    CsvReader rows(in, csv.options);
    const RetriedFile read = read_retried(rows, {std::nullopt, today});
    for (const RetriedEntry& entry : read.entries)
        insist(!read.problems.empty() || !entry.refused);
}

} // namespace inkturn::fuzz
