#include "store/state.hpp"

namespace inkturn {
namespace {

constexpr const char* reading_paper = "reading a paper from";
constexpr std::size_t usual_parts = 64; ///< most papers have fewer

std::optional<GotAt> got_at_in(const SQLite::Column& column) {
    if (column.isNull())
        return std::nullopt;
    return GotAt(column.getInt());
}

void bind(SQLite::Statement& statement, int index, std::optional<GotAt> got_at) {
    if (got_at)
        statement.bind(index, got_at->percent());
    else
        statement.bind(index);
}

std::optional<QuestionChoice> choice_in(const SQLite::Column& column) {
    return column.getBytes() == 0 ? std::nullopt : std::optional(parse_choice(column.getString()));
}

std::optional<Seconds> seconds_in(const SQLite::Column& column) {
    return column.isNull() ? std::nullopt : std::optional(Seconds(column.getInt64()));
}

/// Shorter than Column::getString(), which asks for the length twice.
std::string text_in(const SQLite::Column& column) {
    return {column.getText(), static_cast<std::size_t>(column.getBytes())};
}

Part part_in(SQLite::Statement& row) {
    return {text_in(row.getColumn(0)),   Marks(row.getColumn(1).getInt()), text_in(row.getColumn(2)),
            text_in(row.getColumn(3)),   got_at_in(row.getColumn(4)),      choice_in(row.getColumn(5)),
            seconds_in(row.getColumn(6))};
}

/// Throws Error unless `paper` differs from the one on file only in what complete_paper() changes.
void check_completes(const Paper& paper, const Paper& on_file) {
    const auto refuse = [&](const std::string& why) {
        throw Error("paper " + paper.id() + " on file " + why, Error::Kind::conflict);
    };
    if (paper.duration() != on_file.duration() || paper.retry_by() != on_file.retry_by())
        refuse("has another duration, or retries by another unit");
    if (!paper.got_at() && on_file.got_at())
        refuse("has a share from which a part is got");
    if (paper.parts().size() != on_file.parts().size())
        refuse("has other parts");
    for (std::size_t i = 0; i < paper.parts().size(); ++i) {
        const Part& here = on_file.parts()[i];
        const Part& part = paper.parts()[i];
        if (part.label != here.label || part.max != here.max || part.choice != here.choice)
            refuse("has other parts");
        if (part.codes.empty() && !here.codes.empty())
            refuse("has codes for part " + part.label);
        if (!part.got_at && here.got_at)
            refuse("has a share from which part " + part.label + " is got");
    }
}

} // namespace

std::optional<std::int64_t> Store::State::paper_row(const std::string& id) {
    const auto known = paper_rows.find(id);
    if (known != paper_rows.end())
        return known->second;
    const auto query = prepared("SELECT id FROM paper WHERE code = ?");
    query->bindNoCopy(1, id);
    if (!query->executeStep())
        return std::nullopt;
    const std::int64_t row = query->getColumn(0).getInt64();
    paper_rows.emplace(id, row);
    return row;
}

std::int64_t Store::State::paper_row_on_file(const std::string& id) {
    if (const auto row = paper_row(id))
        return *row;
    throw Error("no paper " + id + " on file", Error::Kind::not_found);
}

std::shared_ptr<const Paper> Store::State::paper(std::int64_t row) {
    const auto known = papers_by_row.find(row);
    if (known != papers_by_row.end())
        return known->second;

    std::vector<Part> parts;
    parts.reserve(usual_parts);
    const auto part = prepared("SELECT label, marks, topic, codes, got_at, choice, allowance FROM part WHERE "
                               "paper = ? ORDER BY position");
    part->bind(1, row);
    while (part->executeStep())
        parts.push_back(undamaged(reading_paper, [&] { return part_in(*part); }));

    const auto head = prepared(
        "SELECT code, title, subject, duration, retry_by, got_at, component FROM paper WHERE id = ?");
    head->bind(1, row);
    const bool is_there = head->executeStep();
    const auto retry_by = is_there ? retry_by_named(head->getColumn(4).getString()) : std::nullopt;
    if (!retry_by)
        throw damaged(reading_paper, "no paper of number " + std::to_string(row));
    PaperHead stated{head->getColumn(0).getString(), head->getColumn(1).getString(),
                     head->getColumn(2).getString(), std::nullopt, *retry_by};
    if (!head->getColumn(3).isNull())
        stated.duration = Seconds(head->getColumn(3).getInt64());
    stated.got_at = undamaged(reading_paper, [&] { return got_at_in(head->getColumn(5)); });
    stated.component = text_in(head->getColumn(6));
    auto read = undamaged(reading_paper,
                          [&] { return std::make_shared<const Paper>(std::move(stated), std::move(parts)); });
    papers_by_row.emplace(row, read);
    return read;
}

void Store::Change::add_paper(const Paper& paper) {
    State& state = this->state();
    state.changed("adding a paper to", [&] {
        if (state.paper_row(paper.id()))
            throw Error("paper " + paper.id() + " is already on file", Error::Kind::conflict,
                        Error::Remedy::give_other_paper_id);
        const auto head = state.prepared("INSERT INTO paper (code, title, subject, duration, retry_by, "
                                         "got_at, component) VALUES (?, ?, ?, "
                                         "?, ?, ?, ?)");
        head->bind(1, paper.id());
        head->bind(2, paper.title());
        head->bind(3, paper.subject());
        if (paper.duration())
            head->bind(4, static_cast<std::int64_t>(paper.duration()->count()));
        else
            head->bind(4);
        head->bind(5, std::string(name(paper.retry_by())));
        bind(*head, 6, paper.got_at());
        head->bind(7, paper.component());
        head->exec();
        const std::int64_t row = state.database->getLastInsertRowid();

        std::int64_t position = 0;
        for (const Part& part : paper.parts()) {
            const auto insert =
                state.prepared("INSERT INTO part (paper, position, label, marks, topic, "
                               "codes, got_at, choice, allowance) VALUES (?, ?, ?, ?, ?, ?, ?, "
                               "?, ?)");
            insert->bind(1, row);
            insert->bind(2, position++);
            insert->bind(3, part.label);
            insert->bind(4, part.max.count());
            insert->bind(5, part.topic);
            insert->bind(6, part.codes);
            bind(*insert, 7, part.got_at);
            insert->bind(8, part.choice ? to_text(*part.choice) : std::string());
            if (part.allowance)
                insert->bind(9, static_cast<std::int64_t>(part.allowance->count()));
            else
                insert->bind(9);
            insert->exec();
        }
    });
}

std::shared_ptr<const Paper> Store::find_paper(const std::string& id) const {
    return state_->guarded(reading_paper, [&]() -> std::shared_ptr<const Paper> {
        const auto row = state_->paper_row(id);
        return row ? state_->paper(*row) : nullptr;
    });
}

std::vector<std::shared_ptr<const Paper>> Store::papers() const {
    return state_->guarded("reading the papers from", [&] {
        std::vector<std::int64_t> rows;
        const auto query = state_->prepared("SELECT id FROM paper ORDER BY code");
        while (query->executeStep())
            rows.push_back(query->getColumn(0).getInt64());
        std::vector<std::shared_ptr<const Paper>> papers;
        for (const std::int64_t row : rows)
            papers.push_back(state_->paper(row));
        return papers;
    });
}

std::vector<PaperOnFile> Store::papers_and_sittings() const {
    return state_->guarded("reading the papers from", [&] {
        std::vector<std::pair<std::int64_t, std::size_t>> rows;
        const auto query = state_->prepared(
            "SELECT id, (SELECT count(*) FROM sitting WHERE sitting.paper = paper.id) + (SELECT count(*) "
            "FROM script WHERE script.paper = paper.id AND retried IS NULL) FROM paper ORDER BY code");
        while (query->executeStep())
            rows.emplace_back(query->getColumn(0).getInt64(),
                              static_cast<std::size_t>(query->getColumn(1).getInt64()));
        std::vector<PaperOnFile> papers;
        for (const auto& [row, sittings] : rows)
            papers.push_back({state_->paper(row), sittings});
        return papers;
    });
}

void Store::Change::complete_paper(const Paper& paper) {
    State& state = this->state();
    state.changed("completing a paper in", [&] {
        const std::int64_t row = state.paper_row_on_file(paper.id());
        check_completes(paper, *state.paper(row));
        const auto head =
            state.prepared("UPDATE paper SET title = ?, subject = ?, got_at = ?, component = ? WHERE id = ?");
        head->bind(1, paper.title());
        head->bind(2, paper.subject());
        bind(*head, 3, paper.got_at());
        head->bind(4, paper.component());
        head->bind(5, row);
        head->exec();
        for (const Part& part : paper.parts()) {
            const auto update = state.prepared(
                "UPDATE part SET topic = ?, codes = ?, got_at = ? WHERE paper = ? AND label = ?");
            update->bind(1, part.topic);
            update->bind(2, part.codes);
            bind(*update, 3, part.got_at);
            update->bind(4, row);
            update->bind(5, part.label);
            update->exec();
        }
        state.forget();
    });
}

void Store::Change::remove_paper(const std::string& id) {
    State& state = this->state();
    state.changed("removing a paper from", [&] {
        const auto statement = state.prepared("DELETE FROM paper WHERE code = ?");
        statement->bind(1, id);
        exec_found(statement, "paper " + id);
        const auto planned =
            state.prepared("DELETE FROM planned WHERE kind IN ('sit', 'foreseen') AND name = ?");
        planned->bind(1, id);
        planned->exec();
        state.remove_candidates_without_records();
        state.forget();
    });
}

} // namespace inkturn
