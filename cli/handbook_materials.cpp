// The chapter of materials: a table for each role to look things up in, then every figure with where it comes from.
#include "cli/handbook_scribe.hpp"
#include "engine/materials.hpp"

namespace lidlift::cli {
namespace {

/// A figure's cell in the table of its role; a dash where there is none.
Line cell(const Material& material, std::string_view key) {
    for (const NamedFigure& named : figures_of(material)) {
        if (named.key != key) continue;
        Line line = plain(figure_text(named));
        return named.figure->disputed ? std::move(line) + emphasis(" disputed") : line;
    }
    return plain("-");
}

void write_overview(Scribe& scribe, const std::vector<Handle<Material>>& handles) {
    std::vector<std::vector<Line>> rows;
    for (const auto handle : handles) {
        const Material& material = scribe.base.materials[handle];
        rows.push_back({scribe.link(handle), cell(material, "moisture"), cell(material, "nitrogen"),
                        cell(material, "carbon to nitrogen"), cell(material, "density")});
    }
    scribe.table({"Material", "Moisture", "Nitrogen of dry mass", "Carbon to nitrogen", "Density, loose"}, std::move(rows));
}

void write_figures(Scribe& scribe, const Material& material) {
    std::vector<std::vector<Line>> rows;
    for (const NamedFigure& named : figures_of(material)) {
        const Figure& figure = *named.figure;
        const std::string standing = figure.disputed ? "disputed; " + standing_text(figure) : standing_text(figure);
        rows.push_back({strong(std::string(named.key)), plain(figure_text(named)), plain(standing), plain(figure.note),
                        scribe.links(sources_of(figure, material))});
    }
    scribe.table({"Figure", "Typical (range)", "Standing", "Who says what", "Sources"}, std::move(rows));
}

void write_material(Scribe& scribe, Handle<Material> handle) {
    const Material& material = scribe.base.materials[handle];
    scribe.entry("material", material.id, material.name, material.name);
    scribe.aside(code(material.id));
    scribe.warn_of(material.cautions);
    if (!material.keep_from_worms.empty()) scribe.paragraph(plain("Keep it from worms. " + material.keep_from_worms));
    if (!material.note.empty()) scribe.paragraph(plain(material.note));
    write_figures(scribe, material);
    std::vector<Line> heard;
    for (const std::string& phrase : material.heard_as) heard.push_back(plain(phrase));
    std::vector<Line> tells;
    for (const Says& says : material.tells) tells.push_back(scribe.answered(says));
    scribe.particulars({{"People say", joined(heard, "; ")},
                        {"Its share of the feed answers", scribe.links(material.shares)},
                        {"Giving it tells", joined(tells, "; ")},
                        {"Measured out by", scribe.links(scribe.refs.measuring[handle.index])}});
    scribe.sources(material.sources);
}

}  // namespace

void write_materials(Scribe& scribe) {
    if (scribe.base.materials.empty()) return;
    scribe.chapter("materials", "Materials by role");
    scribe.paragraph(
        plain("What goes into a tank. Moisture is of the fresh mass, nitrogen of the dry mass, density as it lies loosely in a "
              "bucket. \"Disputed\" means that sources or kinds differ by a factor of two or more: weigh a bucket, and dry a "
              "handful, where it matters."));
    for (std::size_t role = 0; role < material_role_words().size(); ++role) {
        std::vector<Handle<Material>> handles;
        for (std::uint32_t i = 0; i < scribe.base.materials.size(); ++i)
            if (scribe.base.materials[Handle<Material>{i}].role == static_cast<MaterialRole>(role)) handles.push_back({i});
        if (handles.empty()) continue;
        scribe.group(material_role_words()[role]);
        write_overview(scribe, handles);
        for (const auto handle : handles) write_material(scribe, handle);
    }
}

}  // namespace lidlift::cli
