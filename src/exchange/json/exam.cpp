#include "exchange/json/exam.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {

std::string json_of(const std::vector<ExamOnFile>& exams) {
    Json list = Json::array();
    for (const auto& [id, exam] : exams)
        list.push_back({{"exam", static_cast<std::int64_t>(id)},
                        {"title", exam.title},
                        {"date", iso(exam.day)},
                        {"subject", null_if_empty(exam.subject)},
                        {"mock", exam.mock},
                        {"class", null_if_empty(exam.of_class)}});
    return text_of({{"exams", std::move(list)}});
}

} // namespace inkturn
