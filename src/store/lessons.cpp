#include "inkturn/store/lessons.hpp"

#include "inkturn/base/text.hpp"
#include "store/state.hpp"

namespace inkturn {
namespace {

constexpr const char* reading_lessons = "reading the lessons from";

std::optional<Seconds> start_in(const SQLite::Column& column) {
    return column.isNull() ? std::nullopt : std::optional(Seconds(column.getInt64()));
}

void bind_facts(SQLite::Statement& statement, const Lesson& lesson) {
    statement.bind(1, day_number(lesson.day));
    if (lesson.start)
        statement.bind(2, static_cast<std::int64_t>(lesson.start->count()));
    else
        statement.bind(2);
    statement.bind(3, static_cast<std::int64_t>(lesson.duration.count()));
    statement.bind(4, lesson.subject);
    statement.bind(5, static_cast<std::int64_t>(lesson.places));
    statement.bind(6, std::string(name(lesson.order)));
    statement.bind(7, lesson.id);
}

void check_whole(const Lesson& lesson) {
    check_lesson(lesson);
    for (const PlaceAsked& asked : lesson.asked)
        check_asked(lesson, asked);
}

} // namespace

std::vector<std::string> Store::State::lesson_topics(std::int64_t row) {
    std::vector<std::string> topics;
    const auto query = prepared("SELECT topic FROM lesson_topic WHERE lesson = ? ORDER BY topic");
    query->bind(1, row);
    while (query->executeStep())
        topics.push_back(query->getColumn(0).getString());
    return topics;
}

/// A row of id, name, day, start, duration, subject, places and place order.
Lesson Store::State::lesson_in(SQLite::Statement& row) {
    const auto order = place_order_named(row.getColumn(7).getString());
    if (!order)
        throw damaged(reading_lessons, "an unknown order of places");
    Lesson lesson{row.getColumn(1).getString(),
                  day_of(row.getColumn(2).getInt64()),
                  start_in(row.getColumn(3)),
                  Seconds(row.getColumn(4).getInt64()),
                  row.getColumn(5).getString(),
                  lesson_topics(row.getColumn(0).getInt64()),
                  static_cast<std::size_t>(row.getColumn(6).getInt64()),
                  *order};
    read_places_asked(row.getColumn(0).getInt64(), lesson);
    return lesson;
}

void Store::State::read_places_asked(std::int64_t row, Lesson& lesson) {
    const auto query = prepared(
        "SELECT candidate.code, asked_at, remark, state, candidate.id FROM place_asked JOIN candidate "
        "ON candidate.id = place_asked.candidate WHERE lesson = ? ORDER BY asked_at, number");
    query->bind(1, row);
    while (query->executeStep()) {
        const auto state = place_state_named(query->getColumn(3).getString());
        if (!state)
            throw damaged(reading_lessons, "an unknown state of a place");
        lesson.asked.push_back({query->getColumn(0).getString(),
                                Moment{Seconds{query->getColumn(1).getInt64()}},
                                {},
                                query->getColumn(2).getString(),
                                *state});
        const auto topics =
            prepared("SELECT topic FROM topic_wanted WHERE lesson = ? AND candidate = ? ORDER BY topic");
        topics->bind(1, row);
        topics->bind(2, query->getColumn(4).getInt64());
        while (topics->executeStep())
            lesson.asked.back().topics.push_back(topics->getColumn(0).getString());
    }
}

void Store::State::read_lessons(std::int64_t row, Candidate& candidate) {
    const auto query = prepared(
        "SELECT lesson.id, name, day, start, duration, subject, state FROM place_asked JOIN lesson ON "
        "lesson.id = place_asked.lesson WHERE candidate = ? AND state IN ('confirmed', 'attended') "
        "ORDER BY day, start, name");
    query->bind(1, row);
    while (query->executeStep()) {
        const Day day = day_of(query->getColumn(2).getInt64());
        const Seconds duration(query->getColumn(4).getInt64());
        candidate.lessons.push_back({query->getColumn(1).getString(), day, start_in(query->getColumn(3)),
                                     duration, query->getColumn(5).getString(),
                                     lesson_topics(query->getColumn(0).getInt64()),
                                     *place_state_named(query->getColumn(6).getString())});
        candidate.availability.taken[day] += duration;
    }
}

std::vector<Lesson> LessonsOnFile::all(const Store& store) {
    Store::State& state = *store.state_;
    return state.guarded(reading_lessons, [&] {
        std::vector<Lesson> lessons;
        const auto query =
            state.prepared("SELECT id, name, day, start, duration, subject, places, place_order "
                           "FROM lesson ORDER BY day, start, name");
        while (query->executeStep())
            lessons.push_back(state.lesson_in(*query));
        return lessons;
    });
}

std::optional<Lesson> LessonsOnFile::find(const Store& store, const std::string& id) {
    Store::State& state = *store.state_;
    return state.guarded(reading_lessons, [&]() -> std::optional<Lesson> {
        const auto query =
            state.prepared("SELECT id, name, day, start, duration, subject, places, place_order "
                           "FROM lesson WHERE name = ?");
        query->bindNoCopy(1, id);
        if (!query->executeStep())
            return std::nullopt;
        return state.lesson_in(*query);
    });
}

void LessonsOnFile::insert_topics_and_asked(std::int64_t row, const Lesson& lesson) {
    Store::State& state = change_.state();
    for (const std::string& topic : lesson.topics) {
        const auto insert = state.prepared("INSERT INTO lesson_topic (lesson, topic) VALUES (?, ?)");
        insert->bind(1, row);
        insert->bind(2, topic);
        insert->exec();
    }
    int number = 0;
    for (const PlaceAsked& asked : lesson.asked) {
        const std::int64_t candidate = state.candidate_row_made(asked.candidate);
        const auto insert = state.prepared("INSERT INTO place_asked (lesson, candidate, number, asked_at, "
                                           "remark, state) VALUES (?, ?, ?, ?, ?, ?)");
        insert->bind(1, row);
        insert->bind(2, candidate);
        insert->bind(3, ++number);
        insert->bind(4, static_cast<std::int64_t>(asked.at.time_since_epoch().count()));
        insert->bind(5, asked.remark);
        insert->bind(6, std::string(name(asked.state)));
        insert->exec();
        for (const std::string& topic : asked.topics) {
            const auto wanted =
                state.prepared("INSERT INTO topic_wanted (lesson, candidate, topic) VALUES (?, ?, ?)");
            wanted->bind(1, row);
            wanted->bind(2, candidate);
            wanted->bind(3, topic);
            wanted->exec();
        }
    }
}

void LessonsOnFile::add(const Lesson& lesson) {
    Store::State& state = change_.state();
    state.changed("adding a lesson to", [&] {
        check_whole(lesson);
        if (find(change_.store(), lesson.id))
            throw Error("lesson " + lesson.id + " is already on file", Error::Kind::conflict);
        const auto insert = state.prepared("INSERT INTO lesson (day, start, duration, subject, places, "
                                           "place_order, name) VALUES (?, ?, ?, ?, ?, ?, ?)");
        bind_facts(*insert, lesson);
        insert->exec();
        insert_topics_and_asked(state.database->getLastInsertRowid(), lesson);
    });
}

void LessonsOnFile::change(const Lesson& lesson) {
    Store::State& state = change_.state();
    state.changed("changing a lesson in", [&] {
        check_whole(lesson);
        const std::int64_t row = state.lesson_row(lesson.id);
        const auto update = state.prepared("UPDATE lesson SET day = ?, start = ?, duration = ?, subject = ?, "
                                           "places = ?, place_order = ? WHERE name = ?");
        bind_facts(*update, lesson);
        update->exec();
        for (const char* sql :
             {"DELETE FROM lesson_topic WHERE lesson = ?", "DELETE FROM place_asked WHERE lesson = ?"}) {
            const auto clear = state.prepared(sql);
            clear->bind(1, row);
            clear->exec();
        }
        insert_topics_and_asked(row, lesson);
        state.remove_candidates_without_records();
    });
}

void LessonsOnFile::remove(const std::string& id) {
    Store::State& state = change_.state();
    state.changed("removing a lesson from", [&] {
        const std::int64_t row = state.lesson_row(id);
        const auto statement = state.prepared("DELETE FROM lesson WHERE id = ?");
        statement->bind(1, row);
        statement->exec();
        state.remove_candidates_without_records();
    });
}

std::int64_t Store::State::lesson_row(const std::string& lesson) {
    const auto query = prepared("SELECT id FROM lesson WHERE name = ?");
    query->bindNoCopy(1, lesson);
    if (!query->executeStep())
        throw not_on_file("no lesson " + lesson + " on file", lesson, names("SELECT name FROM lesson"),
                          Error::Remedy::list_lessons);
    return query->getColumn(0).getInt64();
}

} // namespace inkturn
