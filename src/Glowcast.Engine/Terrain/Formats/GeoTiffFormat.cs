using Glowcast.Engine.Measures;

namespace Glowcast.Engine.Terrain;

/// <summary>GeoTIFF (OGC 19-008r4): heights in one band, in strips or tiles, with the place of the net in its tags.</summary>
/// <remarks>Only the first image of full resolution is read, and the mask that follows it.</remarks>
internal sealed class GeoTiffFormat : IGridFormat
{
    private const int PixelIsPoint = 2;

    public string Name => "GeoTIFF .tif";

    public bool Recognises(string fileName) =>
        fileName.EndsWith(".tif", StringComparison.OrdinalIgnoreCase) || fileName.EndsWith(".tiff", StringComparison.OrdinalIgnoreCase);

    public GridSource Open(Stream stream, string fileName)
    {
        var (tags, maskTags) = TiffDirectory.OfFirstFullImage(stream, fileName);
        var layout = TiffLayout.Of(tags, fileName);
        var keys = new GeoKeys(tags, fileName);
        var crs = GeoTiffCrs.Of(keys, fileName);
        var scale = GeoTiffHeightScale.Of(tags, keys, fileName);
        var (posts, isSouthUp) = PostsOf(tags, layout, keys, crs, fileName);
        var mask = maskTags is null ? null : new TiffMask(stream, maskTags, layout, fileName);
        var heights = new TiffHeights(stream, tags.Offset, layout, mask, scale, fileName);
        return new Source(heights, posts, isSouthUp, fileName, scale);
    }

    private sealed class Source : GridSource
    {
        private readonly TiffHeights heights;
        private readonly bool isSouthUp;

        /// <param name="isSouthUp">Rows of the image run from south to north.</param>
        public Source(TiffHeights heights, GridPosts posts, bool isSouthUp, string fileName, GeoTiffHeightScale scale)
            : base(fileName, posts, scale.VerticalDatum) => (this.heights, this.isSouthUp, HeightError) = (heights, isSouthUp, scale.HeightError);

        public override long ReadingBytes => heights.ReadingBytes;

        private protected override void ReadPieces(GridWindow window, TakeHeights take)
        {
            if (isSouthUp) heights.Read(window with { Top = Posts.Rows - window.Bottom }, (row, column, piece) => take(Posts.Rows - 1 - row, column, piece));
            else heights.Read(window, take);
        }
    }

    private static (GridPosts Posts, bool IsSouthUp) PostsOf(TiffDirectory tags, TiffLayout layout, GeoKeys keys, GeoTiffCrs crs, string fileName)
    {
        var place = Placement.Of(tags, fileName);
        // A pixel that is an area has its height in the middle.
        var middle = keys.Code(GeoKey.RasterType) == PixelIsPoint ? 0 : 0.5;
        var (left, first) = (place.X0 + (middle * place.ColumnStep), place.Y0 + (middle * place.RowStep));
        var top = place.RowStep < 0 ? first : first + ((layout.Rows - 1) * place.RowStep);
        var unit = crs.MetresPerUnit;
        var posts = crs.Projection is null
            ? new GridPosts(layout.Rows, layout.Columns, top, left, Math.Abs(place.RowStep), place.ColumnStep, crs.Name)
            : new GridPosts(layout.Rows, layout.Columns, top * unit, left * unit, Math.Abs(place.RowStep) * unit, place.ColumnStep * unit, crs.Projection, crs.Name);
        return (posts, place.RowStep > 0);
    }

    /// <summary>The corner (0, 0) of the raster in the coordinate system, and the way from one column or row to the next.</summary>
    /// <param name="RowStep">Negative where rows run from north to south, as is usual.</param>
    private readonly record struct Placement(double X0, double Y0, double ColumnStep, double RowStep)
    {
        // A turned net would move its far corner by more than this share of a cell.
        private const double MostTurn = 1e-3;

        public static Placement Of(TiffDirectory tags, string fileName)
        {
            var (scale, tie, matrix) = (tags.Doubles(TiffTag.ModelPixelScale), tags.Doubles(TiffTag.ModelTiepoint), tags.Doubles(TiffTag.ModelTransformation));
            if (scale.Concat(tie).Concat(matrix).Any(value => !double.IsFinite(value)))
                throw new BadInputException(fileName, "Is placed by numbers that are not finite.");
            if (scale.Length >= 2 && tie.Length >= 6) return ByTiepoint(scale, tie, fileName);
            if (matrix.Length >= 8) return ByMatrix(matrix, tags, fileName);
            throw new BadInputException(fileName, "Has no place on the earth: it must give a tiepoint and a pixel scale, or a transformation.");
        }

        private static Placement ByTiepoint(double[] scale, double[] tie, string fileName) => scale is [> 0, > 0, ..]
            ? new Placement(tie[3] - (tie[0] * scale[0]), tie[4] + (tie[1] * scale[1]), scale[0], -scale[1])
            : throw new BadInputException(fileName, $"Has pixels of {scale[0]} × {scale[1]}; both sizes must be positive.");

        private static Placement ByMatrix(double[] matrix, TiffDirectory tags, string fileName)
        {
            var (rows, columns) = (tags.Whole(TiffTag.ImageLength), tags.Whole(TiffTag.ImageWidth));
            if (!(matrix[0] > 0) || matrix[5] == 0
                || Math.Abs(matrix[1]) * rows > MostTurn * matrix[0] || Math.Abs(matrix[4]) * columns > MostTurn * Math.Abs(matrix[5]))
            {
                throw new BadInputException(fileName, "Is turned or mirrored against its coordinate system; columns must run east and rows along the meridian of the map. Warp it first.");
            }
            return new Placement(matrix[3], matrix[7], matrix[0], matrix[5]);
        }
    }
}
