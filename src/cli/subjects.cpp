#include "cli/subjects.hpp"

#include "cli/terminal.hpp"
#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/store/boundary_sets.hpp"
#include "inkturn/store/facts.hpp"
#include "view/text/text.hpp"

#include <algorithm>
#include <optional>
#include <ostream>
#include <vector>

namespace inkturn {
namespace {

constexpr std::size_t min_beginning = 2; ///< letters of one subject with which another begins

/// A subject on file that was probably meant: the same in other letters, one that begins so or whose
/// beginning it is, or one that a slip makes of it.
std::optional<std::string> like_one_of(const std::set<std::string>& subjects, const std::string& typed) {
    const std::string word = lower_case(typed);
    const auto find = [&](const auto& is_like) -> std::optional<std::string> {
        const auto found = std::find_if(subjects.begin(), subjects.end(), [&](const std::string& subject) {
            return is_like(lower_case(subject));
        });
        return found == subjects.end() ? std::nullopt : std::optional(*found);
    };
    if (auto same = find([&](const std::string& other) { return other == word; }))
        return same;
    const auto begins = [&](const std::string& other) {
        const std::size_t shorter = std::min(word.size(), other.size());
        return shorter >= min_beginning && word.compare(0, shorter, other, 0, shorter) == 0;
    };
    if (auto beginning = find(begins))
        return beginning;
    return nearest_name(typed, {subjects.begin(), subjects.end()});
}

} // namespace

std::set<std::string> subjects_on_file(const Store& store, const std::string& but_of_paper) {
    std::set<std::string> subjects;
    for (const auto& paper : store.papers())
        if (paper->id() != but_of_paper)
            subjects.insert(paper->subject());
    for (const ExamOnFile& exam : store.exams())
        subjects.insert(exam.exam.subject);
    for (const BoundarySetOnFile& on_file : BoundarySets::all(store))
        subjects.insert(on_file.set.subject);
    for (const Fact& fact : FactsOnFile::all(store))
        subjects.insert(fact.subject);
    subjects.erase("");
    return subjects;
}

void check_subject_filter(const Context& context, const Store& store, const std::string& subject) {
    if (subject.empty() || context.json)
        return;
    const std::set<std::string> subjects = subjects_on_file(store);
    if (subjects.empty() || subjects.count(subject) > 0)
        return;
    const std::string problem = "--subject '" + subject + "': nothing on file has it; ";
    if (const auto meant = like_one_of(subjects, subject))
        throw Error(problem + "did you mean '" + *meant + "'?");
    throw Error(problem + "on file: " + list_text(subjects));
}

std::optional<std::string> doubt_of_subject(const Store& store, const std::string& subject) {
    const std::set<std::string> subjects = subjects_on_file(store);
    if (subject.empty() || subjects.empty() || subjects.count(subject) > 0)
        return std::nullopt;
    const auto meant = like_one_of(subjects, subject);
    return "no paper or exam on file has the subject '" + subject + "'; " +
           (meant ? "did you mean '" + *meant + "'?" : "on file: " + list_text(subjects));
}

std::optional<std::string> subject_meant(const Store& store, const std::string& subject) {
    const std::set<std::string> subjects = subjects_on_file(store);
    return subjects.count(subject) > 0 ? std::nullopt : like_one_of(subjects, subject);
}

void question_new_subject(const Context& context, const Store& store, const std::string& subject,
                          const std::string& paper_amended) {
    const std::set<std::string> subjects = subjects_on_file(store, paper_amended);
    if (subject.empty() || subjects.empty() || subjects.count(subject) > 0)
        return;
    const auto meant = like_one_of(subjects, subject);
    if (!meant) {
        context.err << text_line("inkturn: note: " + visible(subject) +
                                 " is a new subject; on file so far: " + visible(list_text(subjects)) +
                                 ". If it is a slip, 'inkturn undo' takes it back");
        return;
    }
    if (!stdin_is_terminal()) {
        context.err << text_line(
            "inkturn: note: " + visible(subject) + " is a new subject, though " + visible(*meant) +
            " is on file: only papers of the same subject count together. If it is a slip, 'inkturn "
            "undo' takes it back");
        return;
    }
    if (!context.confirmed("Nothing on file has the subject " + visible(subject) + ". Did you mean " +
                           visible(*meant) + "? Put it on file as " + visible(subject) + " all the same?"))
        throw Error("nothing was stored");
}

} // namespace inkturn
