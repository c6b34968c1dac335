using System.Globalization;
using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>What the samples of a GeoTIFF mean: unit, offset, no-data value and vertical datum.</summary>
/// <param name="NoData">The raw sample that stands for no height; NaN for none.</param>
/// <param name="VerticalDatum">Null where the file does not name it.</param>
/// <param name="HeightError">What GDAL keeps of the accuracies of a DTED file where it was made from one; no other is written in a GeoTIFF by
/// any standard.</param>
internal sealed record GeoTiffHeightScale(double NoData, double MetresPerUnit, double OffsetM, string? VerticalDatum, HeightError HeightError)
{
    /// <exception cref="BadInputException">A unit that is not known here, or damaged text.</exception>
    public static GeoTiffHeightScale Of(TiffDirectory tags, GeoKeys keys, string fileName)
    {
        var band = Band.Read(tags.Text(TiffTag.GdalMetadata), fileName);
        var unit = UnitByKeys(keys, fileName) ?? band.UnitM;
        if (band.IsUnitNamed && unit != band.UnitM)
            throw new BadInputException(fileName, "Gives two different units for its heights; it must give one.");
        return new GeoTiffHeightScale(NoDataOf(tags, fileName), band.Scale * unit, band.Offset * unit, DatumOf(keys), band.HeightError);
    }

    private static double? UnitByKeys(GeoKeys keys, string fileName)
    {
        // Systems of heights that are themselves counted in feet (EPSG dataset).
        var code = keys.Code(GeoKey.VerticalUnits, keys.Code(GeoKey.VerticalCrs) switch { 5702 or 6360 => 9003, 8228 => 9002, _ => 0 });
        if (code == 0) return null;
        return LengthUnits.OfEpsg(code) ?? throw new BadInputException(fileName, $"Counts its heights in unit EPSG:{code}; metres and feet can be read.");
    }

    private static string? DatumOf(GeoKeys keys) => keys.Code(GeoKey.VerticalCrs) switch
    {
        > 0 and < 32767 and var code => VerticalDatums.OfEpsg(code),
        _ => keys.Text(GeoKey.VerticalCitation),
    };

    private static double NoDataOf(TiffDirectory tags, string fileName)
    {
        if (tags.Text(TiffTag.GdalNoData)?.Trim() is not { Length: > 0 } text) return double.NaN;
        return double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
            ? value
            : throw new BadInputException(fileName, $"Has the no-data value '{Shortened.To80(text)}', which is not a number.");
    }

    /// <summary>What GDAL writes beside the samples of the first band.</summary>
    private sealed record Band(double Scale, double Offset, double UnitM, bool IsUnitNamed, HeightError HeightError)
    {
        public static Band Read(string? xml, string fileName)
        {
            var items = xml is null ? [] : GdalItem.Read(xml, fileName);
            var roles = FirstOf(items.Where(item => item.Sample is null or "0"), item => item.Role);
            var names = FirstOf(items.Where(item => item.Sample is null), item => item.Name);
            var unit = roles.GetValueOrDefault("unittype", "");
            return new Band(
                Number(roles, "scale", 1, fileName), Number(roles, "offset", 0, fileName),
                LengthUnits.OfName(unit) ?? throw new BadInputException(fileName, $"Counts its heights in '{Shortened.To80(unit)}'; metres and feet can be read."),
                unit.Length > 0,
                HeightError.Stated(Accuracy(names, "DTED_VerticalAccuracy_ACC"), Accuracy(names, "DTED_RelVerticalAccuracy")) ?? HeightError.Usual);
        }

        // Text such as NA where the producer does not know.
        private static double? Accuracy(Dictionary<string, string> names, string name) =>
            int.TryParse(names.GetValueOrDefault(name, "").Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var metres) ? metres : null;

        private static double Number(Dictionary<string, string> roles, string role, double usual, string fileName)
        {
            if (!roles.TryGetValue(role, out var text)) return usual;
            return double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value)
                ? value
                : throw new BadInputException(fileName, $"Has '{Shortened.To80(text)}' for the {role} of its heights, which is not a number.");
        }

        private static Dictionary<string, string> FirstOf(IEnumerable<GdalItem> items, Func<GdalItem, string?> key) => items
            .Where(item => key(item) is not null)
            .GroupBy(item => key(item) ?? "")
            .ToDictionary(alike => alike.Key, alike => alike.First().Text);
    }
}
