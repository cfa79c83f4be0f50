#include "exchange/document/exams.hpp"

#include "exchange/document/strict_json.hpp"
#include "exchange/json/value.hpp"

#include <algorithm>
#include <vector>

namespace inkturn {
namespace {

bool same_name(const Exam& a, const Exam& b) {
    return a.title == b.title && a.subject == b.subject && a.of_class == b.of_class;
}

bool same(const Exam& a, const Exam& b) {
    return same_name(a, b) && a.day == b.day && a.mock == b.mock;
}

std::string said(const Exam& exam) {
    return std::string(exam.mock ? "a mock " : "") + "on " + iso(exam.day);
}

class ExamsMerge {
  public:
    ExamsMerge(Store::Change& change, const Document& document, const MergeOptions& options, Merge& merge)
        : change_(change), document_(document), options_(options), merge_(merge) {}

    void run() {
        std::vector<ExamOnFile> on_file = change_.store().exams();
        for (const Exam& exam : document_.exams)
            take(exam, on_file);
    }

  private:
    bool is_in_document(const Exam& exam) const {
        return std::any_of(document_.exams.begin(), document_.exams.end(),
                           [&](const Exam& other) { return same(exam, other); });
    }

    void take(const Exam& exam, std::vector<ExamOnFile>& on_file) {
        if (std::any_of(on_file.begin(), on_file.end(),
                        [&](const ExamOnFile& other) { return same(other.exam, exam); })) {
            ++merge_.exams_unchanged;
            return;
        }
        const auto other = std::find_if(on_file.begin(), on_file.end(), [&](const ExamOnFile& here) {
            return same_name(here.exam, exam) && !is_in_document(here.exam);
        });
        if (other == on_file.end()) {
            change_.add_exam(exam);
            ++merge_.exams_added;
        } else if (!options_.replace) {
            merge_.refuse("exam '" + exam.title + "'" + (exam.subject.empty() ? "" : " of " + exam.subject) +
                          (exam.of_class.empty() ? "" : " for class " + exam.of_class) + ": it is " +
                          said(other->exam) + " here, " + said(exam) +
                          " in the file; --replace takes the file's");
        } else {
            change_.remove_exam(other->id);
            change_.add_exam(exam);
            on_file.erase(other);
            ++merge_.exams_moved;
        }
    }

    Store::Change& change_;
    const Document& document_;
    const MergeOptions& options_;
    Merge& merge_;
};

} // namespace

Json value_of(const Exam& exam) {
    Json object{{"title", exam.title}, {"date", iso(exam.day)}, {"subject", null_if_empty(exam.subject)}};
    if (exam.mock)
        object["mock"] = true;
    if (!exam.of_class.empty())
        object["class"] = exam.of_class;
    return object;
}

Exam read_exam(const JsonValue& value) {
    value.check_keys({"title", "date", "subject"}, {"mock", "class"});
    const JsonValue subject = value.at("subject");
    Exam exam{value.at("title").name(), read_day(value.at("date")), subject.is_null() ? "" : subject.name(),
              value.has("mock") && value.at("mock").yes_or_no(),
              value.has("class") ? value.at("class").text() : std::string()};
    // An exam that is over was a good one before.
    value.checked([&] { check_exam(exam, exam.day - Days{1}); });
    return exam;
}

void take_exams(Store::Change& change, const Document& document, const MergeOptions& options, Merge& merge) {
    ExamsMerge(change, document, options, merge).run();
}

} // namespace inkturn
