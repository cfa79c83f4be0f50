#include "exchange/class/code_check.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/error.hpp"
#include "inkturn/base/likeness.hpp"
#include "inkturn/base/number.hpp"
#include "inkturn/base/text.hpp"
#include "inkturn/retry/candidate.hpp"
#include "inkturn/store/papers.hpp"

#include <algorithm>
#include <unordered_set>
#include <utility>

namespace inkturn {
namespace {

/// ` in line 4,`, or in a workbook ` in cell A4,`; empty where the code was typed.
std::string where(const CellPlace& place) {
    if (place.line == 0)
        return "";
    return ", in " + (place.cell.empty() ? "line " + std::to_string(place.line) : "cell " + place.cell) + ",";
}

/// A number as a spreadsheet shows long ones: 1.2E+05.
bool is_scientific(std::string_view code) {
    const std::size_t e = code.find_first_of("eE");
    if (e == std::string_view::npos || e == 0 || !is_digit(code.front()))
        return false;
    const auto all_among = [](std::string_view text, std::string_view signs) {
        return !text.empty() && text.find_first_not_of(signs) == std::string_view::npos;
    };
    const std::string_view exponent = code.substr(e + 1);
    const bool is_signed = !exponent.empty() && (exponent.front() == '+' || exponent.front() == '-');
    return all_among(code.substr(0, e), "0123456789.,") &&
           all_among(exponent.substr(is_signed ? 1 : 0), "0123456789");
}

/// In what two codes that are alike differ.
std::string difference(const std::string& a, const std::string& b) {
    if (likeness(a) != likeness(b)) {
        const std::string first = look_alikes(a, b);
        return "characters that look alike" + (first.empty() ? "" : ": " + first);
    }
    if (has_invisible_character(a) != has_invisible_character(b))
        return "a character that shows nothing";
    if (composed(a) == composed(b))
        return "how their accents are stored";
    if (lower_case(a) == lower_case(b))
        return "capitals";
    return "zeros, capitals or blanks";
}

} // namespace

std::string alike_text(const std::string& code, const std::string& known) {
    return "the codes '" + code + "' and '" + known + "', which is on file, differ only in " +
           difference(code, known);
}

namespace {

class CodeCheck {
  public:
    CodeCheck(const Store& store, const std::optional<std::string>& of_class, ClassFile& file)
        : store_(store), of_class_(of_class), file_(file) {}

    std::size_t run() {
        const std::vector<std::string> codes = store_.candidates();
        on_file_.insert(codes.begin(), codes.end());
        for (std::size_t i = 0; i < file_.candidates.size(); ++i)
            if (on_file_.count(file_.candidates[i]) == 0)
                new_.push_back(i);
        if (!new_.empty())
            find_alike(codes);
        for (const std::size_t i : new_)
            check_new(i);
        if (first_name_)
            doubt(DoubtKind::name, *first_name_, name_doubt());
        if (of_class_)
            for (std::size_t i = 0; i < file_.candidates.size(); ++i)
                check_classes(i);
        return new_.size() - taken_for_known_;
    }

  private:
    void doubt(DoubtKind kind, std::size_t i, std::string message) {
        const CellPlace& place = file_.places[i];
        file_.doubts.raise(
            kind, {place.line, place.column, std::move(message), Error::Remedy::none, {}, place.cell});
    }

    std::string name_doubt() const {
        const std::string& first = file_.candidates[*first_name_];
        const bool may_be_several =
            file_.places[*first_name_].line == 0 && first.find(' ') == std::string::npos;
        return (names_ == 1 ? "the code '" + first + "' looks like a name"
                            : std::to_string(names_) + " codes look like names, '" + first + "' first") +
               (may_be_several ? ", or like several codes, which blanks part: " : ": ") +
               "pupils' marks are personal data, keep codes instead of names";
    }

    void find_alike(const std::vector<std::string>& codes) {
        for (const std::string& code : codes)
            alike_.add(code);
        for (const std::string& code : file_.candidates)
            in_file_.add(code);
    }

    /// Also a code without a digit in a column that says it holds names.
    bool may_be_name(const std::string& code) const {
        return code.find_first_of(" ,@") != std::string::npos ||
               (file_.reading.codes_headed_as_names && std::none_of(code.begin(), code.end(), is_digit));
    }

    void check_new(std::size_t i) {
        const std::string code = file_.candidates[i];
        if (may_be_name(code) && names_++ == 0)
            first_name_ = i;
        if (is_scientific(code))
            doubt(DoubtKind::scientific_code, i,
                  "the code '" + code +
                      "' is a number as a spreadsheet shows long ones: format the column as "
                      "text and save it again");
        if (const std::string* known = alike_.find(code))
            compare_with_file(i, *known);
        else if (const std::string* other = in_file_.find(code))
            doubt(DoubtKind::code_like, i,
                  "the codes '" + code + "' and" + where(place_of(*other)) + " '" + *other +
                      "' differ only in " + difference(code, *other));
    }

    const CellPlace& place_of(const std::string& code) const {
        const auto& all = file_.candidates;
        return file_.places[static_cast<std::size_t>(std::find(all.begin(), all.end(), code) - all.begin())];
    }

    void compare_with_file(std::size_t i, const std::string& known) {
        const std::string code = file_.candidates[i];
        doubt(DoubtKind::code_like, i, alike_text(code, known));
        if (!file_.doubts.is_otherwise(DoubtKind::code_like))
            return;
        const auto& all = file_.candidates;
        if (std::find(all.begin(), all.end(), known) != all.end()) {
            const CellPlace& place = file_.places[i];
            file_.problems.add({place.line, place.column,
                                (place.line == 0 ? "there are '" : "the file has '") + code + "' and '" +
                                    known + "': correct one or the other"});
            return;
        }
        file_.candidates[i] = known;
        ++taken_for_known_;
    }

    void check_classes(std::size_t i) {
        const std::string& code = file_.candidates[i];
        if (on_file_.count(code) == 0)
            return;
        const std::vector<std::string> classes = store_.classes_of(code);
        if (!classes.empty() && std::find(classes.begin(), classes.end(), *of_class_) == classes.end())
            doubt(DoubtKind::code_in_class, i,
                  "candidate " + code + " is in class " + classes.front() +
                      ": the same candidate, or another with the same code? Another one needs a code of its "
                      "own");
    }

    const Store& store_;
    const std::optional<std::string>& of_class_;
    ClassFile& file_;
    std::unordered_set<std::string> on_file_;
    std::vector<std::size_t> new_; ///< positions of the candidates that are not on file
    CodesAlike alike_;             ///< codes on file
    CodesAlike in_file_;
    std::optional<std::size_t> first_name_;
    std::size_t names_ = 0;
    std::size_t taken_for_known_ = 0;
};

} // namespace

namespace {

/// Names such as 12A and 12B: schools number their classes so.
bool differ_in_last_alone(std::string_view a, std::string_view b) {
    return a.size() == b.size() && !a.empty() && a.substr(0, a.size() - 1) == b.substr(0, b.size() - 1);
}

/// Names such as mock-2025 and mock-2026.
bool differ_in_digits_alone(std::string_view a, std::string_view b) {
    return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(), [](char x, char y) {
               return x == y || (is_digit(x) && is_digit(y));
           });
}

/// Whether it is numbered one more than another of these, as pure-10 is after pure-9.
bool is_next_of(const std::string& name, const std::vector<std::string>& names) {
    const std::size_t stem = name.find_last_not_of("0123456789") + 1;
    const auto number = read_whole_number(std::string_view(name).substr(stem), 999'999);
    return number && *number > 0 &&
           std::find(names.begin(), names.end(), name.substr(0, stem) + std::to_string(*number - 1)) !=
               names.end();
}

/// The name on file that a new one is but for a slip.
std::optional<std::string> slip_of(const std::string& name, const std::vector<std::string>& names) {
    constexpr std::size_t min_length = 4; // a slip in less makes too many others
    if (name.size() < min_length || is_next_of(name, names))
        return std::nullopt;
    const auto meant = std::find_if(names.begin(), names.end(), [&](const std::string& other) {
        return is_one_slip(lower_case(name), lower_case(other)) && !differ_in_last_alone(name, other) &&
               !differ_in_digits_alone(name, other);
    });
    return meant == names.end() ? std::nullopt : std::optional(*meant);
}

/// The name on file that was probably meant by a new one.
std::optional<std::string> name_meant(const std::string& name, const std::vector<std::string>& names) {
    CodesAlike alike;
    for (const std::string& one : names)
        alike.add(one);
    if (const std::string* like = alike.find(name))
        return *like;
    return slip_of(name, names);
}

/// The same of a code that looks like none on file: one of another number is another candidate's.
std::optional<std::string> code_meant(const std::string& code, std::vector<std::string> on_file) {
    on_file.erase(std::remove_if(on_file.begin(), on_file.end(),
                                 [&](const std::string& one) { return !nearest_name(code, {one}); }),
                  on_file.end());
    return slip_of(code, on_file);
}

void doubt_slip(std::string& code, const std::vector<std::string>& on_file, FileDoubts& doubts) {
    const auto meant = code_meant(code, on_file);
    if (!meant)
        return;
    doubts.raise(DoubtKind::code_like,
                 {0, 0, "'" + code + "' is not on file, but '" + *meant + "' is: is that meant?"});
    if (doubts.is_otherwise(DoubtKind::code_like))
        code = *meant;
}

CodesAlike alike_among(const std::vector<std::string>& codes) {
    CodesAlike alike;
    for (const std::string& code : codes)
        alike.add(code);
    return alike;
}

/// Doubts new codes that are those of candidates on file but for a slip.
void doubt_slips(const Store& store, std::vector<std::string>& codes, FileDoubts& doubts) {
    const std::vector<std::string> on_file = store.candidates();
    const CodesAlike alike = alike_among(on_file);
    for (std::string& code : codes)
        if (!store.has_candidate(code) && !alike.find(code))
            doubt_slip(code, on_file, doubts);
}

} // namespace

std::string settled_code(const std::string& code, const std::vector<std::string>& on_file,
                         FileDoubts& doubts) {
    std::string settled = code;
    const CodesAlike alike = alike_among(on_file);
    if (const std::string* known = alike.find(code)) {
        doubts.raise(DoubtKind::code_like, {0, 0, alike_text(code, *known)});
        if (doubts.is_otherwise(DoubtKind::code_like))
            settled = *known;
    } else {
        doubt_slip(settled, on_file, doubts);
    }
    return settled;
}

std::vector<std::string> settled_members(const Store& store, const std::string& of_class,
                                         const std::vector<std::string>& codes, FileDoubts& doubts) {
    for (const std::string& code : codes)
        check_candidate_code(code);
    ClassFile typed;
    typed.candidates = codes;
    doubt_slips(store, typed.candidates, doubts);
    typed.places.assign(codes.size(), CellPlace{0, 0, {}});
    typed.doubts = std::move(doubts);
    check_codes(store, of_class, typed);
    doubts = std::move(typed.doubts);
    if (!typed.problems.empty())
        throw Error(typed.problems.items.front().message);
    return std::move(typed.candidates);
}

void doubt_new_class(const Store& store, const std::string& name, FileDoubts& doubts) {
    if (store.has_class(name))
        return;
    std::vector<std::string> names;
    for (const ClassOnFile& one : store.classes())
        names.push_back(one.name);
    if (const auto nearest = name_meant(name, names))
        doubts.raise(
            DoubtKind::new_class,
            {0, 0, "class '" + name + "' is not on file, but '" + *nearest + "' is: is that meant?"});
}

void doubt_other_classes(const Store& store, const std::string& name, ClassFile& file) {
    const std::string plain = lower_case(name);
    const auto doubt = [&](const std::string& written, const Problem& place) {
        Problem at = place;
        at.message.append("the file says class ")
            .append(written)
            .append(" here, and --class says ")
            .append(name);
        file.doubts.raise(DoubtKind::column, std::move(at));
    };
    for (const auto& [written, place] : file.reading.classes)
        if (const std::string other = lower_case(written);
            other != plain && (store.has_class(written) || differ_in_last_alone(other, plain)))
            doubt(written, place);
    for (const auto& [written, place] : file.reading.groups)
        if (lower_case(written) != plain && store.has_class(written))
            doubt(written, place);
}

void doubt_new_papers(const Store& store, ClassFile& file) {
    std::vector<std::string> names = PapersOnFile::ids(store);
    for (const auto& [paper, on_file] : file.papers) {
        if (on_file || !paper)
            continue;
        if (const auto meant = name_meant(paper->id(), names))
            file.doubts.raise(DoubtKind::new_paper, {0, 0,
                                                     "paper '" + paper->id() + "' would be new, but '" +
                                                         *meant + "' is there: is that meant?"});
        names.push_back(paper->id());
    }
}

std::size_t check_codes(const Store& store, const std::optional<std::string>& of_class, ClassFile& file) {
    return CodeCheck(store, of_class, file).run();
}

} // namespace inkturn
