#include "exchange/class/code_check.hpp"

#include "inkturn/base/ascii.hpp"
#include "inkturn/base/likeness.hpp"

#include <algorithm>
#include <unordered_map>
#include <unordered_set>
#include <utility>

namespace inkturn {
namespace {

/// `line 4`, or in a workbook `cell A4`.
std::string where(const CellPlace& place) {
    return place.cell.empty() ? "line " + std::to_string(place.line) : "cell " + place.cell;
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
    if (has_invisible_character(a) != has_invisible_character(b))
        return "a character that shows nothing";
    if (composed(a) == composed(b))
        return "how their accents are stored";
    if (lower_case(a) == lower_case(b))
        return "capitals";
    return "zeros, capitals or blanks";
}

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
            doubt(DoubtKind::name, *first_name_,
                  std::to_string(names_) + (names_ == 1 ? " code looks" : " codes look") +
                      " like names, this one first: pupils' marks are personal data, keep codes instead of "
                      "names");
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

    void find_alike(const std::vector<std::string>& codes) {
        for (const std::string& code : codes)
            alike_.try_emplace(likeness(code), code);
        for (std::size_t i = 0; i < file_.candidates.size(); ++i)
            in_file_.try_emplace(likeness(file_.candidates[i]), i);
    }

    void check_new(std::size_t i) {
        const std::string code = file_.candidates[i];
        const std::string key = likeness(code);
        if (code.find_first_of(" ,") != std::string::npos && names_++ == 0)
            first_name_ = i;
        if (is_scientific(code))
            doubt(DoubtKind::scientific_code, i,
                  "the code '" + code +
                      "' is a number as a spreadsheet shows long ones: format the column as "
                      "text and save it again");
        const auto known = alike_.find(key);
        if (known != alike_.end())
            compare_with_file(i, known->second);
        else if (const std::size_t first = in_file_.at(key); first != i)
            doubt(DoubtKind::code_like, i,
                  "the codes '" + code + "' and, in " + where(file_.places[first]) + ", '" +
                      file_.candidates[first] + "' differ only in " +
                      difference(code, file_.candidates[first]));
        else if (has_invisible_character(code))
            doubt(DoubtKind::scientific_code, i,
                  "the code '" + code + "' holds a character that shows nothing: type it anew");
    }

    void compare_with_file(std::size_t i, const std::string& known) {
        const std::string code = file_.candidates[i];
        doubt(DoubtKind::code_like, i,
              "the codes '" + code + "' and '" + known + "', which is on file, differ only in " +
                  difference(code, known));
        if (!file_.doubts.is_otherwise(DoubtKind::code_like))
            return;
        const auto& all = file_.candidates;
        if (std::find(all.begin(), all.end(), known) != all.end()) {
            const CellPlace& place = file_.places[i];
            file_.problems.add({place.line, place.column,
                                "the file has '" + code + "' and '" + known + "': correct one or the other"});
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
    std::vector<std::size_t> new_;                       ///< positions of the candidates that are not on file
    std::unordered_map<std::string, std::string> alike_; ///< codes on file
    std::unordered_map<std::string, std::size_t> in_file_;
    std::optional<std::size_t> first_name_;
    std::size_t names_ = 0;
    std::size_t taken_for_known_ = 0;
};

} // namespace

std::size_t check_codes(const Store& store, const std::optional<std::string>& of_class, ClassFile& file) {
    return CodeCheck(store, of_class, file).run();
}

} // namespace inkturn
