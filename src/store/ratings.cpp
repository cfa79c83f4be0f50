#include "inkturn/store/plan.hpp"

#include "store/state.hpp"

namespace inkturn {
namespace {

constexpr const char* reading_ratings = "reading ratings of topics from";

TopicRating rating_in(SQLite::Statement& row) {
    TopicRating rating{row.getColumn(0).getString(), row.getColumn(1).getString(),
                       parse_understanding(row.getColumn(2).getString()),
                       day_of(row.getColumn(3).getInt64())};
    check_rating(rating);
    return rating;
}

} // namespace

std::vector<TopicRating> PlanOnFile::ratings(const Store& store, const std::string& candidate) {
    Store::State& state = *store.state_;
    return state.guarded(reading_ratings, [&] {
        std::vector<TopicRating> ratings;
        const auto row = state.candidate_row(candidate);
        if (!row)
            return ratings;
        const auto query = state.prepared("SELECT subject, topic, rating, day FROM topic_rating WHERE "
                                          "candidate = ? ORDER BY subject, topic");
        query->bind(1, *row);
        while (query->executeStep())
            ratings.push_back(state.undamaged(reading_ratings, [&] { return rating_in(*query); }));
        return ratings;
    });
}

void PlanOnFile::rate(const std::string& candidate, const TopicRating& rating) {
    Store::State& state = change_.state();
    state.changed("saving a rating of a topic in", [&] {
        check_rating(rating);
        const auto insert = state.prepared("INSERT OR REPLACE INTO topic_rating (candidate, subject, topic, "
                                           "rating, day) VALUES (?, ?, ?, ?, ?)");
        insert->bind(1, state.candidate_row_made(candidate));
        insert->bind(2, rating.subject);
        insert->bind(3, rating.topic);
        insert->bind(4, std::string(name(rating.understanding)));
        insert->bind(5, static_cast<std::int64_t>(rating.day.time_since_epoch().count()));
        insert->exec();
    });
}

} // namespace inkturn
