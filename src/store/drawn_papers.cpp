#include "inkturn/store/drawn_papers.hpp"

#include "inkturn/store/question_bank.hpp"
#include "store/state.hpp"

namespace inkturn {

std::vector<Copies> DrawnPapers::copies(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded("reading the drawn papers from", [&] {
        std::vector<Copies> sets;
        std::optional<std::int64_t> last;
        const auto query =
            state.prepared("SELECT same, paper.code, question FROM copied_question JOIN paper ON paper.id = "
                           "copied_question.paper ORDER BY same, position");
        while (query->executeStep()) {
            const std::int64_t same = query->getColumn(0).getInt64();
            if (same != last)
                sets.emplace_back();
            last = same;
            sets.back().push_back({query->getColumn(1).getString(), query->getColumn(2).getString()});
        }
        return sets;
    });
}

std::int64_t DrawnPapers::row_of(const QuestionName& name) const {
    return change_.state().paper_row_on_file(name.paper);
}

void DrawnPapers::check_on_file(const QuestionName& name) const {
    if (!change_.state().paper(row_of(name))->find_question(name.question))
        throw Error("paper " + name.paper + " has no question " + name.question, Error::Kind::not_found,
                    Error::Remedy::show_paper, name.paper);
}

std::optional<std::int64_t> DrawnPapers::set_of(const QuestionName& name) const {
    const auto query =
        change_.state().prepared("SELECT same FROM copied_question WHERE paper = ? AND question = ?");
    query->bind(1, row_of(name));
    query->bind(2, name.question);
    if (!query->executeStep())
        return std::nullopt;
    return query->getColumn(0).getInt64();
}

std::int64_t DrawnPapers::set_made(const QuestionName& name) {
    if (const auto known = set_of(name))
        return *known;
    const auto query = change_.state().prepared("SELECT ifnull(max(same), 0) + 1 FROM copied_question");
    query->executeStep();
    const std::int64_t same = query->getColumn(0).getInt64();
    put_last(same, name);
    return same;
}

void DrawnPapers::put_last(std::int64_t same, const QuestionName& name) {
    Store::State& state = change_.state();
    const auto insert =
        state.prepared("INSERT INTO copied_question (same, position, paper, question) VALUES (?1, (SELECT "
                       "ifnull(max(position) + 1, 0) FROM copied_question WHERE same = ?1), ?2, ?3)");
    insert->bind(1, same);
    insert->bind(2, row_of(name));
    insert->bind(3, name.question);
    insert->exec();
}

void DrawnPapers::join(std::int64_t same, std::int64_t other) {
    const auto update = change_.state().prepared(
        "UPDATE copied_question SET same = ?1, position = position + (SELECT max(position) + 1 FROM "
        "copied_question WHERE same = ?1) WHERE same = ?2");
    update->bind(1, same);
    update->bind(2, other);
    update->exec();
}

void DrawnPapers::note_copy(const QuestionName& source, const QuestionName& copy) {
    change_.state().changed("noting a copy in", [&] {
        check_on_file(source);
        check_on_file(copy);
        const std::int64_t same = set_made(source);
        const auto other = set_of(copy);
        if (!other)
            put_last(same, copy);
        else if (*other != same)
            join(same, *other);
    });
}

void DrawnPapers::check_drawn(const Paper& paper, const std::vector<Drawable>& questions) const {
    if (questions.size() != paper.questions().size())
        throw Error("paper " + paper.id() + " has " + std::to_string(paper.questions().size()) +
                    " questions, but the number drawn is " + std::to_string(questions.size()));
    for (const Drawable& question : questions) {
        if (!question.paper || question.question >= question.paper->questions().size())
            throw Error("a drawn question must come from a paper", Error::Kind::misused);
        check_on_file({question.paper->id(), question.paper_question().label});
    }
}

void DrawnPapers::add(const Paper& paper, const std::vector<Drawable>& questions, Day today) {
    change_.state().changed("adding a drawn paper to", [&] {
        check_drawn(paper, questions);
        change_.add_paper(paper);
        QuestionBank(change_).set_added(paper.id(), today);
        for (std::size_t i = 0; i < questions.size(); ++i) {
            const Paper& source = *questions[i].paper;
            const std::string& question = questions[i].paper_question().label;
            const std::string& drawn = paper.questions()[i].label;
            note_copy({source.id(), question}, {paper.id(), drawn});
            for (const PictureContent content : {PictureContent::question, PictureContent::scheme})
                for (const Picture& picture : change_.store().pictures_of(source, question, content))
                    change_.add_picture(paper, drawn, content, picture);
        }
    });
}

} // namespace inkturn
