#include "exchange/json/config.hpp"

#include "exchange/json/value.hpp"

namespace inkturn {

std::string json_of(const ConfigShown& config) {
    Json settings = Json::array();
    for (const SettingShown& one : config.settings)
        settings.push_back({{"setting", one.name},
                            {"value", null_if_empty(one.value)},
                            {"from", one.from},
                            {"line", one.line == 0 ? Json() : Json(one.line)}});
    return text_of({{"file", config.file},
                    {"is_there", config.is_there},
                    {"settings", settings},
                    {"mistakes", config.mistakes}});
}

} // namespace inkturn
