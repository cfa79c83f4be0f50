#include "exchange/json/set.hpp"

#include "exchange/json/value.hpp"
#include "inkturn/clock/allowance.hpp"

namespace inkturn {
namespace {

void add_written(const SetWritten& written, Json& json) {
    json["bytes"] = written.bytes;
    json["pictures"] = written.pictures;
    json["without_picture"] = written.without_picture;
}

} // namespace

std::string json_of_set(const Paper& paper, const std::vector<SetQuestion>& chosen, const SetStock& stock,
                        const SetWritten& written) {
    Json json = value_of(paper);
    Json questions = Json::array();
    for (std::size_t i = 0; i < chosen.size(); ++i) {
        const Drawable& question = chosen[i].drawable;
        questions.push_back(
            {{"question", paper.question(i).label},
             {"from", {{"paper", question.paper->id()}, {"question", question.paper_question().label}}},
             {"topic", question.topic},
             {"marks", question.paper_question().marks.count()},
             {"marks_on_topics", chosen[i].on_topics.count()},
             {"allowance_seconds", question.allowance.count()},
             {"paper_to_sit", null_if_empty(question.to_sit)}});
    }
    json["questions"] = std::move(questions);
    json["left_out"] = {{"met", stock.met},
                        {"printed", stock.printed},
                        {"kept_unseen", stock.kept_unseen},
                        {"waiting", stock.waiting},
                        {"not_used", stock.questions.size() - chosen.size()}};
    add_written(written, json);
    return text_of(json);
}

std::string json_of_set(const Paper& paper, const SetWritten& written) {
    Json json = value_of(paper);
    add_written(written, json);
    return text_of(json);
}

std::string json_of(const std::vector<PrintedSet>& sets,
                    const std::vector<std::shared_ptr<const Paper>>& papers) {
    Json list = Json::array();
    for (std::size_t i = 0; i < sets.size(); ++i)
        list.push_back({{"paper", sets[i].paper},
                        {"date", iso(sets[i].day)},
                        {"candidate", null_if_empty(sets[i].candidate)},
                        {"class", null_if_empty(sets[i].of_class)},
                        {"marks", papers[i]->marks().count()},
                        {"questions", papers[i]->questions().size()},
                        {"allowance_seconds", allowance(*papers[i]).count()}});
    return text_of({{"sets", std::move(list)}});
}

} // namespace inkturn
