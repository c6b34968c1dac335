using System.Buffers.Binary;
using Glowcast.Engine.Light;
using Glowcast.Field.Pictures;

namespace Glowcast.Server.Answers;

/// <summary>The ridge as the lookout sees it: how far the ground in each direction is, and when each patch of it is lit.</summary>
/// <param name="FromDeg">Bearing of the left edge.</param>
/// <param name="ColumnDeg">Width of a column.</param>
/// <param name="TopDeg">Apparent altitude of the upper edge.</param>
/// <param name="RowDeg">Height of a row.</param>
/// <param name="Distance">Unsigned 16-bit little-endian numbers n, row by row from the top, in base64: the ground is
/// 10 m × exp(n / 6000) away, so that near and far ground keep the same share of error; 0 for sky.</param>
/// <param name="Patches">The ground parted as the chart has it.</param>
public sealed record PictureAnswer(
    double FromDeg, double ColumnDeg, int Columns, double TopDeg, double RowDeg, int Rows, byte[] Distance, PatchesAnswer Patches)
{
    private const double NearestM = 10;
    private const double UnitsPerEfold = 6000;
    private const double NominalColumnDeg = 0.05;
    private const int MostColumns = 1800;
    private const double SkyAboveDeg = 1.5;
    private const double DeepestDeg = 12;

    public static PictureAnswer Of(Scene scene, LightChart? chart)
    {
        ArgumentNullException.ThrowIfNull(scene);
        var raster = RidgeRaster.Of(scene, Math.Clamp((int)(scene.Span.Width.Degrees / NominalColumnDeg), 1, MostColumns), SkyAboveDeg, DeepestDeg);
        return new PictureAnswer(
            raster.FromDeg, raster.PixelDeg, raster.Columns, raster.TopDeg, raster.PixelDeg, raster.Rows, Distances(raster), PatchesAnswer.Of(scene, chart));
    }

    private static byte[] Distances(RidgeRaster raster)
    {
        var bytes = new byte[2 * raster.Rows * raster.Columns];
        for (var row = 0; row < raster.Rows; row++)
        {
            for (var column = 0; column < raster.Columns; column++)
            {
                var units = raster.At(column, row) is { } ground ? Math.Clamp(Math.Round(UnitsPerEfold * Math.Log(ground.DistanceM / NearestM)), 1, ushort.MaxValue) : 0;
                BinaryPrimitives.WriteUInt16LittleEndian(bytes.AsSpan(2 * ((row * raster.Columns) + column)), (ushort)units);
            }
        }
        return bytes;
    }
}
