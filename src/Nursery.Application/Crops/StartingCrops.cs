using Nursery.Domain.Crops;
using Nursery.Domain.Refusals;

namespace Nursery.Application.Crops;

/// <summary>Crop profiles that come with the program, each value with its source: a start for those who have none of their own.</summary>
public sealed class StartingCrops(TimeProvider time)
{
    /// <summary>Put before the sources of a crop taken from here, so that people see it is not their own yet.</summary>
    public const string Mark = "starting profile, check it against your own seed and house: ";

    private const string FolderVariable = "NURSERY_SCENARIO";
    private const int MostSources = 4000;

    /// <summary>Where crops.csv is; beside the program unless the variable names another folder.</summary>
    public string Folder { get; init; } = Environment.GetEnvironmentVariable(FolderVariable) is { Length: > 0 } named
        ? named
        : Path.Combine(AppContext.BaseDirectory, "seed-scenario");

    /// <summary>By code, each with a new id; none when the file is not there.</summary>
    public IReadOnlyDictionary<string, Crop> Read()
    {
        var path = Path.Combine(Folder, "crops.csv");
        if (!File.Exists(path))
        {
            return new Dictionary<string, Crop>();
        }

        var errors = new List<FieldError>();
        var (needed, later) = new CropList().Info.FileColumns;
        var crops = CsvText.Read(CsvText.Decode(File.ReadAllBytes(path)), needed, 1000, later, CsvRow.Lacking)
            .Select(row => CropList.CropOf(new CsvRow("crops.csv", row.Line, row.Fields, null, errors), time, null))
            .ToDictionary(crop => crop.Code);
        foreach (var crop in crops.Values)
        {
            var marked = Mark + crop.Sources;
            crop.Sources = marked.Length <= MostSources ? marked : marked[..MostSources];
        }

        return errors.Count == 0 ? crops : throw new InvalidFields(errors);
    }
}
