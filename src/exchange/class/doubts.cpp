#include "exchange/class/doubts.hpp"

#include "inkturn/base/error.hpp"

#include <algorithm>
#include <utility>

namespace inkturn {
namespace {

bool is_of_kinds(const std::vector<DoubtKind>& kinds, std::size_t kind) {
    return kinds.empty() ||
           std::find(kinds.begin(), kinds.end(), static_cast<DoubtKind>(kind)) != kinds.end();
}

constexpr DoubtAnswer no_other{nullptr, nullptr};

constexpr std::array<DoubtAnswers, doubt_kinds> all_answers{{
    {{"encoding", "reads the file in the encoding of --encoding all the same"}, no_other},
    {{"subject", "takes the subject as it is"}, no_other},
    {{"new-topics", "puts them into the list as further topics"},
     {"same-topics", "takes them for the topics of the list"}},
    {{"new-class", "makes it a further class"}, no_other},
    {{"new-paper", "puts it on file as a further paper"}, no_other},
    {{"old-dates", "keeps these dates"}, no_other},
    {{"max-rows", "reads the rows as maximum marks"}, {"max-candidates", "reads them as candidates"}},
    {{"no-candidates", "leaves the rows out"}, {"all-candidates", "reads them as candidates"}},
    {{"absent", "counts them as absent"}, {"tried-nothing", "stores a sitting without a mark for each"}},
    {{"zeros", "stores the marks, a sitting of 0"}, {"absent-remarks", "counts them as absent"}},
    {{"sums", "checks the columns as sums and leaves them out"}, {"sum-parts", "reads them as parts"}},
    {{"columns", "leaves the columns out"}, no_other},
    {{"new-candidates", "puts them on file as further candidates"},
     {"same-candidates", "takes them for the ones on file"}},
    {{"both-classes", "takes them for the same candidates, in both classes"}, no_other},
    {{"codes", "keeps these codes as they are"}, no_other},
    {{"names", "puts them on file as they are"}, no_other},
    {{"same-marks", "stores them as further sittings"}, no_other},
    {{"sat-again", "stores them as further sittings"}, no_other},
    {{"sat-after-all", "keeps the marks that are on file"}, no_other},
    {{"extra-time", "puts the file's extra time on file, for sittings that are new"},
     {"same-extra-time", "leaves the extra time on file as it is"}},
    {{"known-codes", "takes them for the ones on file"}, no_other},
    {{"early", "records these re-attempts all the same"}, no_other},
    {{"not-done", "leaves these retries open"}, {"no-marks", "records re-attempts without a mark"}},
}};

Error answers_none(const std::string& name, const std::vector<DoubtKind>& kinds) {
    std::string known;
    for (const std::string& word : words_that_settle(kinds))
        known.append(known.empty() ? "" : ", ").append(word);
    return Error("--accept '" + name + "' settles no doubt; use one of " + known);
}

} // namespace

const DoubtAnswers& answers_to(DoubtKind kind) {
    return all_answers[static_cast<std::size_t>(kind)];
}

std::vector<std::string> words_that_settle(const std::vector<DoubtKind>& kinds) {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < doubt_kinds; ++i)
        for (const DoubtAnswer& answer : {all_answers[i].as_read, all_answers[i].otherwise})
            if (answer.name != nullptr && is_of_kinds(kinds, i))
                words.emplace_back(answer.name);
    return words;
}

FileDoubts::FileDoubts(const std::vector<std::string>& accepted, const std::vector<DoubtKind>& kinds) {
    for (const std::string& name : accepted) {
        bool found = false;
        for (std::size_t i = 0; i < doubt_kinds; ++i) {
            for (const auto& [answer, given] : {std::pair(all_answers[i].as_read, Given::as_read),
                                                std::pair(all_answers[i].otherwise, Given::otherwise)}) {
                if (answer.name == nullptr || name != answer.name || !is_of_kinds(kinds, i))
                    continue;
                found = true;
                if (given_[i] != Given::none && given_[i] != given)
                    throw Error(std::string("--accept ")
                                    .append(all_answers[i].as_read.name)
                                    .append(" and --accept ")
                                    .append(all_answers[i].otherwise.name)
                                    .append(" contradict each other: leave one out"));
                given_[i] = given;
            }
        }
        if (!found)
            throw answers_none(name, kinds);
    }
}

void FileDoubts::raise(DoubtKind kind, Problem at) {
    if (!is_open(kind))
        return;
    if (counts_[static_cast<std::size_t>(kind)]++ < max_of_kind)
        doubts_.push_back({kind, std::move(at)});
}

std::vector<FileDoubt> FileDoubts::open() const {
    std::vector<FileDoubt> sorted = doubts_;
    std::stable_sort(sorted.begin(), sorted.end(),
                     [](const FileDoubt& a, const FileDoubt& b) { return a.kind < b.kind; });
    return sorted;
}

} // namespace inkturn
