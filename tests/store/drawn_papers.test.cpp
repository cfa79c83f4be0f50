#include "inkturn/store/drawn_papers.hpp"

#include "catch.hpp"
#include "inkturn/base/error.hpp"
#include "store/older_layout.hpp"
#include "store/store_on_file.hpp"

#include <SQLiteCpp/Database.h>

#include <string>
#include <vector>

namespace {

using namespace inkturn;
using namespace inkturn::test;

constexpr Day today{date::year{2026} / date::November / 25};

Paper paper(const std::string& id, RetryBy by = RetryBy::question) {
    return Paper({id, "", "pure", std::nullopt, by},
                 {{"1", Marks(5), "", ""}, {"2a", Marks(2), "", ""}, {"2b", Marks(6), "", ""}});
}

Picture picture(const std::string& bytes) {
    return {PictureKind::png, 3, 2, bytes};
}

/// A store that holds two papers.
struct OnFile : StoreOnFile {
    OnFile() {
        change([](Store::Change& open) {
            open.add_paper(paper("a"));
            open.add_paper(paper("b", RetryBy::part));
        });
    }

    void note(const QuestionName& source, const QuestionName& copy) {
        change([&](Store::Change& open) { DrawnPapers(open).note_copy(source, copy); });
    }

    Stock stock() const {
        return drawable(store.papers(), DrawnPapers::copies(store), store.candidate("me"), {}, {}, today);
    }

    /// Draws all that may be.
    void draw_all(const std::string& id) {
        const std::vector<Drawable> questions = stock().questions;
        const Paper drawn = drawn_paper({id, "", "", {}, RetryBy::question}, questions);
        change([&](Store::Change& open) { DrawnPapers(open).add(drawn, questions, today); });
    }

    std::string copies() const {
        std::string text;
        for (const Copies& same : DrawnPapers::copies(store)) {
            text += text.empty() ? "" : ", ";
            for (std::size_t i = 0; i < same.size(); ++i)
                text += (i == 0 ? "" : "=") + same[i].paper + "q" + same[i].question;
        }
        return text;
    }

    std::string pictures(const std::string& id, const std::string& question, PictureContent content) const {
        std::string bytes;
        for (const Picture& shown : store.pictures_of(*store.find_paper(id), question, content))
            bytes += shown.bytes;
        return bytes;
    }
};

} // namespace

TEST_CASE("a drawn paper's questions remember where they came from") {
    OnFile on;
    on.draw_all("d");
    CHECK(on.copies() == "aq1=dq1, aq2=dq2, bq1=dq3, bq2a=dq4, bq2b=dq5");
    CHECK(on.store.find_paper("d")->parts().size() == 6);
    on.draw_all("e");
    CHECK(on.copies() == "aq1=dq1=eq1, aq2=dq2=eq2, bq1=dq3=eq3, bq2a=dq4=eq4, bq2b=dq5=eq5");
    on.reopen();
    CHECK(on.stock().questions.size() == 5);
}

TEST_CASE("drawn parts keep the allowances of where they came from, and a store of version 14 has none") {
    OnFile on;
    on.change([](Store::Change& open) {
        open.add_paper(Paper({"c", "", "pure", Seconds(1000), RetryBy::question}, {{"1", Marks(5), "", ""}}));
    });
    on.draw_all("d");
    on.reopen();
    CHECK(on.store.find_paper("d")->part(6).allowance == Seconds(1000));
    CHECK(on.store.find_paper("d")->part(0).allowance == Seconds(360));
    CHECK_FALSE(on.store.find_paper("c")->part(0).allowance);
    SQLite::Database(on.file, SQLite::OPEN_READWRITE).exec(drop_since_14 + "PRAGMA user_version = 14");
    on.reopen();
    CHECK_FALSE(on.store.find_paper("d")->part(0).allowance);
    CHECK(on.store.find_paper("d")->duration() == Seconds(1000 + 2 * 13 * 72));
}

TEST_CASE("a paper whose id is taken is not drawn") {
    OnFile on;
    CHECK_THROWS_AS(on.draw_all("a"), Error);
    CHECK(on.copies().empty());
}

TEST_CASE("copies stay known to each other when the paper that they came from goes") {
    OnFile on;
    on.draw_all("d");
    on.draw_all("e");
    on.change([](Store::Change& open) {
        open.remove_paper("a");
        open.remove_paper("b");
    });
    CHECK(on.copies() == "dq1=eq1, dq2=eq2, dq3=eq3, dq4=eq4, dq5=eq5");
    CHECK(on.stock().questions.size() == 5);
    on.change([](Store::Change& open) { open.add_paper(paper("a")); });
    CHECK(on.stock().questions.size() == 7);
    on.draw_all("f");
    CHECK(on.copies() == "dq1=eq1=fq3, dq2=eq2=fq4, dq3=eq3=fq5, dq4=eq4=fq6, dq5=eq5=fq7, aq1=fq1, aq2=fq2");
}

TEST_CASE("copies that come to be known as one are one set") {
    OnFile on;
    on.note({"a", "1"}, {"b", "1"});
    on.note({"a", "1"}, {"b", "1"});
    on.note({"a", "2"}, {"b", "2a"});
    CHECK(on.copies() == "aq1=bq1, aq2=bq2a");
    on.note({"b", "2a"}, {"b", "1"});
    CHECK(on.copies() == "aq2=bq2a=aq1=bq1");
    on.note({"b", "1"}, {"a", "2"});
    CHECK(on.copies() == "aq2=bq2a=aq1=bq1");
}

TEST_CASE("a drawn question shows the pictures that its source does") {
    OnFile on;
    const Paper by_part = paper("b", RetryBy::part);
    on.change([&](Store::Change& open) {
        open.add_picture(paper("a"), "2", PictureContent::question, picture("two"));
        open.add_picture(paper("a"), "2", PictureContent::question, picture(", more"));
        open.add_picture(paper("a"), "2", PictureContent::scheme, picture("scheme"));
        open.add_picture(by_part, "2", PictureContent::question, picture("whole"));
        open.add_picture(by_part, "2b", PictureContent::question, picture("part"));
    });
    on.draw_all("d");
    CHECK(on.pictures("d", "1", PictureContent::question).empty());
    CHECK(on.pictures("d", "2", PictureContent::question) == "two, more");
    CHECK(on.pictures("d", "2", PictureContent::scheme) == "scheme");
    CHECK(on.pictures("d", "4", PictureContent::question) == "whole");
    CHECK(on.pictures("d", "5", PictureContent::question) == "part");
}
