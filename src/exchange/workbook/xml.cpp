#include "exchange/workbook/xml.hpp"

#include "inkturn/base/error.hpp"

#include <array>
#include <exception>
#include <expat.h>
#include <utility>

namespace inkturn {
namespace {

constexpr char namespace_end = '|'; // in the names that expat gives

struct KnownNamespace {
    std::string_view uri;
    std::string_view prefix;
};

/// ECMA-376 in its transitional and its strict form, and OASIS ODF 1.2.
constexpr std::array<KnownNamespace, 15> known_namespaces{{
    {"http://schemas.openxmlformats.org/spreadsheetml/2006/main", ""},
    {"http://purl.oclc.org/ooxml/spreadsheetml/main", ""},
    {"http://schemas.openxmlformats.org/officeDocument/2006/relationships", "r:"},
    {"http://purl.oclc.org/ooxml/officeDocument/relationships", "r:"},
    {"http://schemas.openxmlformats.org/package/2006/relationships", ""},
    {"http://schemas.openxmlformats.org/package/2006/content-types", ""},
    {"urn:oasis:names:tc:opendocument:xmlns:table:1.0", "table:"},
    {"urn:oasis:names:tc:opendocument:xmlns:office:1.0", "office:"},
    {"urn:oasis:names:tc:opendocument:xmlns:text:1.0", "text:"},
    {"urn:oasis:names:tc:opendocument:xmlns:style:1.0", "style:"},
    {"urn:oasis:names:tc:opendocument:xmlns:drawing:1.0", "draw:"},
    {"urn:oasis:names:tc:opendocument:xmlns:manifest:1.0", "manifest:"},
    {"urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0", "calcext:"},
    {"urn:oasis:names:tc:opendocument:xmlns:of:1.2", "of:"},
    {"http://www.w3.org/XML/1998/namespace", "xml:"},
}};

/// Where the name proper begins, and the prefix that stands for its namespace.
struct SplitName {
    std::string_view prefix;
    std::string_view name;
};

SplitName split(std::string_view expats) {
    const std::size_t end = expats.rfind(namespace_end);
    if (end == std::string_view::npos)
        return {"", expats};
    const std::string_view uri = expats.substr(0, end);
    for (const KnownNamespace& known : known_namespaces)
        if (known.uri == uri)
            return {known.prefix, expats.substr(end + 1)};
    return {"?:", expats.substr(end + 1)};
}

bool is_called(std::string_view expats, std::string_view name) {
    const SplitName parts = split(expats);
    return name.size() == parts.prefix.size() + parts.name.size() &&
           name.substr(0, parts.prefix.size()) == parts.prefix &&
           name.substr(parts.prefix.size()) == parts.name;
}

} // namespace

std::optional<std::string_view> XmlAttributes::find(std::string_view name) const {
    for (const char* const* pair = pairs_; *pair != nullptr; pair += 2)
        if (is_called(pair[0], name))
            return pair[1];
    return std::nullopt;
}

struct XmlReader::State {
    State(XmlHandler& of, std::string of_part, const WorkbookLimits& of_limits)
        : handler(of), part(std::move(of_part)), limits(of_limits) {}
    ~State() { XML_ParserFree(parser); }
    State(const State&) = delete;
    State& operator=(const State&) = delete;

    XmlHandler& handler;
    std::string part;
    WorkbookLimits limits;
    XML_Parser parser = XML_ParserCreateNS(nullptr, namespace_end);
    std::size_t elements = 0;
    std::size_t depth = 0;
    std::size_t quiet_bytes = 0; ///< since the last event, by whole pieces
    std::string name;            ///< of the element, as the handler sees it
    std::exception_ptr thrown;
    bool done = false;

    [[noreturn]] void fail(const std::string& why) const {
        throw Error("the workbook's part " + part + " " + why);
    }

    std::string_view named(const char* expats) {
        const SplitName parts = split(expats);
        name.assign(parts.prefix).append(parts.name);
        return name;
    }

    /// Runs an event's work; what it throws waits until expat has returned.
    template <typename Work>
    void on_event(Work work) {
        quiet_bytes = 0;
        if (thrown || done)
            return;
        try {
            work();
            done = handler.done();
        } catch (...) {
            thrown = std::current_exception();
        }
        if (thrown || done)
            XML_StopParser(parser, XML_FALSE);
    }

    void start(const char* expats, const char** attributes) {
        on_event([&] {
            if (++depth > limits.depth)
                fail("has more than " + std::to_string(limits.depth) +
                     " elements in each other: it was not written by a spreadsheet program");
            if (++elements > limits.elements)
                fail("has more than " + std::to_string(limits.elements) +
                     " elements: save the columns that matter as a workbook of their own, or as CSV");
            handler.start(named(expats), XmlAttributes(attributes));
        });
    }

    void end(const char* expats) {
        on_event([&] {
            --depth;
            handler.end(named(expats));
        });
    }

    void check(XML_Status status) const {
        if (thrown)
            std::rethrow_exception(thrown);
        if (status == XML_STATUS_ERROR && !done)
            fail("is damaged in its line " + std::to_string(XML_GetCurrentLineNumber(parser)) + " (" +
                 XML_ErrorString(XML_GetErrorCode(parser)) + "): use a fresh copy of the file");
    }
};

XmlReader::XmlReader(XmlHandler& handler, std::string part, const WorkbookLimits& limits)
    : state_(std::make_unique<State>(handler, std::move(part), limits)) {
    XML_Parser parser = state_->parser;
    if (parser == nullptr)
        throw std::bad_alloc();
    XML_SetUserData(parser, state_.get());
    XML_SetElementHandler(
        parser,
        [](void* state, const char* name, const char** attributes) {
            static_cast<State*>(state)->start(name, attributes);
        },
        [](void* state, const char* name) { static_cast<State*>(state)->end(name); });
    XML_SetCharacterDataHandler(parser, [](void* data, const char* text, int length) {
        auto& state = *static_cast<State*>(data);
        state.on_event([&] { state.handler.text({text, static_cast<std::size_t>(length)}); });
    });
    XML_SetStartDoctypeDeclHandler(
        parser, [](void* data, const char* /*name*/, const char* /*system*/, const char* /*public*/, int) {
            auto& state = *static_cast<State*>(data);
            state.on_event([&] {
                state.fail("has a document type, which no workbook has: it was not written by a spreadsheet "
                           "program");
            });
        });
}

XmlReader::~XmlReader() = default;

bool XmlReader::take(std::string_view piece) {
    State& s = *state_;
    if (s.done)
        return false;
    s.quiet_bytes += piece.size();
    s.check(XML_Parse(s.parser, piece.data(), static_cast<int>(piece.size()), XML_FALSE));
    if (s.quiet_bytes > s.limits.tag_bytes)
        s.fail("has a tag of more than a mebibyte: it was not written by a spreadsheet program");
    return !s.done;
}

void XmlReader::finish() {
    if (!state_->done)
        state_->check(XML_Parse(state_->parser, nullptr, 0, XML_TRUE));
}

} // namespace inkturn
