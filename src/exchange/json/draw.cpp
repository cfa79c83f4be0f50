#include "exchange/json/draw.hpp"

#include "exchange/json/value.hpp"

#include <utility>

namespace inkturn {

std::string json_of_drawn(const Paper& paper, const std::vector<Drawable>& questions, const Stock& stock,
                          Seconds time, ExtraTime extra) {
    Json json = value_of(paper);
    Json list = Json::array();
    for (std::size_t i = 0; i < questions.size(); ++i) {
        const Drawable& question = questions[i];
        list.push_back(
            {{"question", paper.questions()[i].label},
             {"from", {{"paper", question.paper->id()}, {"question", question.paper_question().label}}},
             {"topic", question.topic},
             {"marks", question.paper_question().marks.count()},
             {"allowance_seconds", question.allowance.count()},
             {"got_on", day_or_null(question.got_on)},
             {"paper_to_sit", null_if_empty(question.to_sit)}});
    }
    const Seconds filled = allowance(paper, extra);
    json["questions"] = std::move(list);
    json["request_seconds"] = time.count();
    json["extra_time"] = extra.percent();
    json["filled_seconds"] = filled.count();
    json["unfilled_seconds"] = (time - filled).count();
    json["not_drawn"] = {
        {"waiting", stock.waiting},         {"on_desk", stock.on_desk},
        {"recent", stock.recent},           {"seen", stock.seen},
        {"kept_unseen", stock.kept_unseen}, {"not_used", stock.questions.size() - questions.size()}};
    return text_of(json);
}

} // namespace inkturn
