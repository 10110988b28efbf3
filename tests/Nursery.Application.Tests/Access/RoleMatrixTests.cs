using Nursery.Application.Access;
using Nursery.Application.Batches;
using Nursery.Application.Benches;
using Nursery.Application.Crops;
using Nursery.Application.Exports;
using Nursery.Application.Forecasts;
using Nursery.Application.Germination;
using Nursery.Application.HeatAndLight;
using Nursery.Application.HeatZones;
using Nursery.Application.HeatZones.Readings;
using Nursery.Application.Houses;
using Nursery.Application.Labour;
using Nursery.Application.Orders;
using Nursery.Application.Outages;
using Nursery.Application.Papers;
using Nursery.Application.People;
using Nursery.Application.Plans;
using Nursery.Application.Reservations;
using Nursery.Application.Rounds;
using Nursery.Application.Runs;
using Nursery.Application.SeedLots;
using Nursery.Application.Setup;
using Nursery.Application.Setup.Lists;
using Nursery.Application.Sowings;
using Nursery.Application.Start;
using Nursery.Domain.Ledger;
using Nursery.Domain.People;
using Nursery.Domain.Refusals;
using Nursery.Domain.Runs;
using Nursery.Testing.Database;
using Nursery.Testing.Nurseries;
using Xunit;

namespace Nursery.Application.Tests.Access;

/// <summary>Every use case that takes an actor, tried by every role.</summary>
public sealed class RoleMatrixTests(TestDatabase database) : IClassFixture<TestDatabase>
{
    private static readonly Role[] Everyone = [Role.Administrator, Role.HeadGrower, Role.Staff, Role.Manager];
    private static readonly Role[] Planners = [Role.Administrator, Role.HeadGrower];
    private static readonly Role[] Workers = [Role.Administrator, Role.HeadGrower, Role.Staff];
    private static readonly Role[] Administrators = [Role.Administrator];

    private static readonly Dictionary<Type, (Role[] Allowed, Func<TestNursery, Actor, Task> Call)> UseCases = new()
    {
        [typeof(IssueApiKey)] = (Administrators, (n, a) => n.Get<IssueApiKey>().HandleAsync("key", [Right.Read], a)),
        [typeof(RebuildStates)] = (Administrators, (n, a) => n.Get<RebuildStates>().HandleAsync(a)),
        [typeof(ImportOrders)] = (Planners, (n, a) => n.Get<ImportOrders>().HandleAsync(NurserySteps.OrderFile(), true, a)),
        [typeof(ChangeOrderLine)] = (Planners, (n, a) => n.Get<ChangeOrderLine>().HandleAsync(new(Guid.Empty, 1, [], []), a)),
        [typeof(PlanBatch)] = (Planners, (n, a) => n.Get<PlanBatch>().HandleAsync(new(n.Pepper.Code, null, 1, 72, 1, n.Today), a)),
        [typeof(PlanFromOrders)] = (Planners, (n, a) => n.Get<PlanFromOrders>().HandleAsync(new(null), a)),
        [typeof(ReserveSpaces)] = (Planners, (n, a) => n.Get<ReserveSpaces>().HandleAsync(new("no", "no", 1, 1, n.Today, n.Today), a)),
        [typeof(PlaceByFirstFit)] = (Planners, (n, a) => n.Get<PlaceByFirstFit>().HandleAsync(a)),
        [typeof(StartPlacing)] = (Planners, (n, a) => n.Get<StartPlacing>().HandleAsync(a)),
        [typeof(StopRun)] = (Planners, (n, a) => n.Get<StopRun>().HandleAsync(Guid.Empty, RunKind.FirstFit, a)),
        [typeof(ShowPlacing)] = (Everyone, (n, a) => n.Get<ShowPlacing>().HandleAsync(null, a)),
        [typeof(StartPlan)] = (Planners, (n, a) => n.Get<StartPlan>().HandleAsync(new(Iterations: -1), a)),
        [typeof(ShowPlan)] = (Everyone, (n, a) => n.Get<ShowPlan>().LatestAsync(a)),
        [typeof(ShowPlanInForce)] = (Everyone, (n, a) => n.Get<ShowPlanInForce>().HandleAsync(a)),
        [typeof(AcceptPlan)] = (Planners, (n, a) => n.Get<AcceptPlan>().HandleAsync(new(Guid.Empty), a)),
        [typeof(DropPlan)] = (Planners, (n, a) => n.Get<DropPlan>().HandleAsync(Guid.Empty, a)),
        [typeof(ChangeBatch)] = (Planners, (n, a) => n.Get<ChangeBatch>().HandleAsync(new(Guid.Empty, 1, 2, null, null), a)),
        [typeof(DiscardBatch)] = (Planners, (n, a) => n.Get<DiscardBatch>().HandleAsync(new(n.NewEntryId(), Guid.Empty, "why"), a)),
        [typeof(DiscardTrays)] = (Planners, (n, a) => n.Get<DiscardTrays>().HandleAsync(new(n.NewEntryId(), Guid.Empty, new(1, 1), "cause"), a)),
        [typeof(ShareTrays)] = (Planners, (n, a) => n.Get<ShareTrays>().HandleAsync(new([]), a)),
        [typeof(UnshareTrays)] = (Planners, (n, a) => n.Get<UnshareTrays>().HandleAsync(Guid.Empty, 1, a)),
        [typeof(MoveTrays)] = (Planners, (n, a) => n.Get<MoveTrays>().HandleAsync(new(Guid.Empty, "no", null), a)),
        [typeof(UndoReplan)] = (Planners, (n, a) => n.Get<UndoReplan>().HandleAsync(Guid.Empty, a)),
        [typeof(TakeOutOfUse)] = (Planners, (n, a) => n.Get<TakeOutOfUse>().HandleAsync(new("no", null, n.Today, n.Today.PlusDays(1)), a)),
        [typeof(GiveBack)] = (Planners, (n, a) => n.Get<GiveBack>().HandleAsync(Guid.Empty, null, a)),
        [typeof(ListOutages)] = (Everyone, (n, a) => n.Get<ListOutages>().HandleAsync(new Paging(), a)),
        [typeof(SetSetpoint)] = (Planners, (n, a) => n.Get<SetSetpoint>().HandleAsync(new("no", 20, n.Today, null), a)),
        [typeof(ShowZone)] = (Everyone, (n, a) => n.Get<ShowZone>().HandleAsync("no", null, 10, a)),
        [typeof(RecordReadings)] = (Workers, (n, a) => n.Get<RecordReadings>().HandleAsync([], a)),
        [typeof(ImportReadings)] = (Workers, (n, a) => n.Get<ImportReadings>().HandleAsync("zone,at,temperature_c\n"u8.ToArray(), true, a)),
        [typeof(ExportReadings)] = (Everyone, async (n, a) => await (await n.Get<ExportReadings>().HandleAsync(a))(Stream.Null)),
        [typeof(ShowHeatAndLight)] = (Everyone, (n, a) => n.Get<ShowHeatAndLight>().HandleAsync(a)),
        [typeof(ShowSetup)] = (Planners, (n, a) => n.Get<ShowSetup>().HandleAsync(a)),
        [typeof(AddHouseOfBenches)] = (Planners, (n, a) => n.Get<AddHouseOfBenches>().HandleAsync(
            new HouseOfBenchesRequest("H1", "House", 1800, 900, 2, 500, 165, 60, 0, 20, 1), a)),
        [typeof(ShowSetupList)] = (Planners, (n, a) => n.Get<ShowSetupList>().HandleAsync("houses", a)),
        [typeof(ExportSetupList)] = (Planners, (n, a) => n.Get<ExportSetupList>().HandleAsync("houses", a)),
        [typeof(ImportSetupList)] = (Planners, (n, a) => n.Get<ImportSetupList>().HandleAsync("houses", "code,name,length_cm,width_cm,round_order\n"u8.ToArray(), true, a)),
        [typeof(SaveSetupRow)] = (Planners, (n, a) => n.Get<SaveSetupRow>().HandleAsync(new("houses", Guid.Empty, 1, new Dictionary<string, string>()), a)),
        [typeof(RetireSetupRow)] = (Planners, (n, a) => n.Get<RetireSetupRow>().HandleAsync("houses", Guid.Empty, a)),
        [typeof(TakeBackSetupRow)] = (Planners, (n, a) => n.Get<TakeBackSetupRow>().HandleAsync("houses", Guid.Empty, a)),
        [typeof(ListApiKeys)] = (Administrators, (n, a) => n.Get<ListApiKeys>().HandleAsync(a)),
        [typeof(RevokeApiKey)] = (Administrators, (n, a) => n.Get<RevokeApiKey>().HandleAsync(Guid.Empty, a)),
        [typeof(GivePassword)] = (Administrators, (n, a) => n.Get<GivePassword>().HandleAsync(Guid.Empty, a)),
        [typeof(ChangePassword)] = (Everyone, (n, a) => n.Get<ChangePassword>().HandleAsync("an old password", "a new password", a)),
        [typeof(SowBatch)] = (Workers, (n, a) => n.Get<SowBatch>().HandleAsync(Guid.Empty, new(n.NewEntryId(), null, n.Today), a)),
        [typeof(RecordEntries)] = (Workers, (n, a) => n.Get<RecordEntries>().HandleAsync([n.Entry(new SurfaceSeen("W1", SurfaceState.Dry))], a)),
        [typeof(ShowSite)] = (Everyone, (n, a) => n.Get<ShowSite>().HandleAsync(a)),
        [typeof(ShowLabour)] = (Everyone, (n, a) => n.Get<ShowLabour>().HandleAsync(a)),
        [typeof(ShowStart)] = (Everyone, (n, a) => n.Get<ShowStart>().HandleAsync(a)),
        [typeof(ListOrderLines)] = (Everyone, (n, a) => n.Get<ListOrderLines>().HandleAsync(new Paging(), a)),
        [typeof(ExportOrders)] = (Everyone, (n, a) => n.Get<ExportOrders>().HandleAsync(a)),
        [typeof(ExportBatches)] = (Everyone, (n, a) => n.Get<ExportBatches>().HandleAsync(a)),
        [typeof(ListBatches)] = (Everyone, (n, a) => n.Get<ListBatches>().HandleAsync(new Paging(), a)),
        [typeof(ListUnplaced)] = (Everyone, (n, a) => n.Get<ListUnplaced>().HandleAsync(a)),
        [typeof(ListTrayPartners)] = (Everyone, (n, a) => n.Get<ListTrayPartners>().HandleAsync([], a)),
        [typeof(ShowBatch)] = (Everyone, (n, a) => n.Get<ShowBatch>().HandleAsync(Guid.Empty, a)),
        [typeof(ShowForecast)] = (Everyone, (n, a) => n.Get<ShowForecast>().HandleAsync("no", a)),
        [typeof(ListShortStands)] = (Everyone, (n, a) => n.Get<ListShortStands>().HandleAsync(a)),
        [typeof(ShowSowingOptions)] = (Everyone, (n, a) => n.Get<ShowSowingOptions>().HandleAsync("none", a)),
        [typeof(PrintMixSheet)] = (Everyone, (n, a) => n.Get<PrintMixSheet>().HandleAsync(null, null, null, a)),
        [typeof(PlanResow)] = (Planners, (n, a) => n.Get<PlanResow>().HandleAsync(Guid.Empty, new("no", null, 1, 1), a)),
        [typeof(FindCropEmergence)] = (Everyone, (n, a) => n.Get<FindCropEmergence>().HandleAsync("Tomato", a)),
        [typeof(ListCropNames)] = (Everyone, (n, a) => n.Get<ListCropNames>().HandleAsync(a)),
        [typeof(ListVarieties)] = (Everyone, (n, a) => n.Get<ListVarieties>().HandleAsync(a)),
        [typeof(ListLotsOf)] = (Everyone, (n, a) => n.Get<ListLotsOf>().HandleAsync(n.Pepper.Code, a)),
        [typeof(ListBenches)] = (Everyone, (n, a) => n.Get<ListBenches>().HandleAsync(new Paging(), a)),
        [typeof(ListHeatZones)] = (Everyone, (n, a) => n.Get<ListHeatZones>().HandleAsync(new Paging(), a)),
        [typeof(ShowHouses)] = (Everyone, async (n, a) =>
        {
            await n.Get<ShowHouses>().LoadAsync("H1", n.Today, 3, a);
            await n.Get<ShowHouses>().HandleAsync(null, a);
        }
        ),
        [typeof(ListTasks)] = (Everyone, (n, a) => n.Get<ListTasks>().HandleAsync(null, a)),
        [typeof(ShowRound)] = (Everyone, (n, a) => n.Get<ShowRound>().HandleAsync(a)),
        [typeof(GerminationByKey)] = (Everyone, (n, a) => n.Get<GerminationByKey>().HandleAsync(new(GerminationKey.Crop), a)),
        [typeof(ShowGermination)] = (Everyone, (n, a) => n.Get<ShowGermination>().HandleAsync(new(GerminationKey.Crop), a)),
        [typeof(ExportGermination)] = (Everyone, (n, a) => n.Get<ExportGermination>().HandleAsync(GerminationLines.Rows, new(GerminationKey.Crop), a)),
        [typeof(PrintGermination)] = (Everyone, (n, a) => n.Get<PrintGermination>().HandleAsync(new(GerminationKey.Crop), null, null, a)),
        [typeof(ExportReservations)] = (Everyone, (n, a) => n.Get<ExportReservations>().HandleAsync(a)),
        [typeof(ExportStandings)] = (Everyone, (n, a) => n.Get<ExportStandings>().HandleAsync(a)),
        [typeof(ExportTasks)] = (Everyone, (n, a) => n.Get<ExportTasks>().HandleAsync(a)),
        [typeof(ExportSetpoints)] = (Everyone, (n, a) => n.Get<ExportSetpoints>().HandleAsync(a)),
        [typeof(ExportLedger)] = (Everyone, async (n, a) => await (await n.Get<ExportLedger>().HandleAsync(a))(Stream.Null)),
        [typeof(ListSowings)] = (Everyone, (n, a) => n.Get<ListSowings>().HandleAsync(null, null, a)),
        [typeof(PrintSowingSheet)] = (Everyone, (n, a) => n.Get<PrintSowingSheet>().HandleAsync(null, null, null, a)),
        [typeof(PrintTrayTags)] = (Everyone, async (n, a) =>
        {
            await n.Get<PrintTrayTags>().CountAsync(new(), a);
            await n.Get<PrintTrayTags>().PreviewAsync(new(), a);
            await n.Get<PrintTrayTags>().HandleAsync(new(), a);
        }
        ),
        [typeof(StartTagsRun)] = (Everyone, (n, a) => n.Get<StartTagsRun>().HandleAsync(new(), a)),
        [typeof(ShowTagsRuns)] = (Everyone, async (n, a) =>
        {
            await n.Get<ShowTagsRuns>().HandleAsync(a);
            await n.Get<ShowTagsRuns>().HandleAsync(Guid.Empty, a);
        }
        ),
        [typeof(FetchKeptPrint)] = (Everyone, (n, a) => n.Get<FetchKeptPrint>().HandleAsync(Guid.Empty, a)),
        [typeof(PrintRoundSheet)] = (Everyone, (n, a) => n.Get<PrintRoundSheet>().HandleAsync(null, null, null, a)),
        [typeof(PrintPlanTimeLine)] = (Everyone, (n, a) => n.Get<PrintPlanTimeLine>().HandleAsync(null, null, a)),
        [typeof(PrintBenchPlan)] = (Everyone, (n, a) => n.Get<PrintBenchPlan>().HandleAsync(null, null, null, a)),
        [typeof(PrintPatchSheet)] = (Everyone, (n, a) => n.Get<PrintPatchSheet>().HandleAsync(null, null, a)),
        [typeof(PrintCarryList)] = (Everyone, (n, a) => n.Get<PrintCarryList>().HandleAsync(null, null, null, a)),
        [typeof(PrintPickList)] = (Everyone, (n, a) => n.Get<PrintPickList>().HandleAsync(null, null, null, a)),
        [typeof(ShowRoundSheet)] = (Workers, (n, a) => n.Get<ShowRoundSheet>().HandleAsync(1, a)),
        [typeof(EnterRoundSheet)] = (Workers, (n, a) => n.Get<EnterRoundSheet>().HandleAsync(new(1, null, n.Today.AtMidnight(), []), a)),
        [typeof(PrintBenchTags)] = (Everyone, (n, a) => n.Get<PrintBenchTags>().HandleAsync(null, null, a)),
    };

    public static TheoryData<string> Names => [.. UseCases.Keys.Select(type => type.Name)];

    public static TheoryData<string, Role> Matrix
    {
        get
        {
            var rows = new TheoryData<string, Role>();
            foreach (var useCase in UseCases.Keys)
            {
                foreach (var role in Everyone)
                {
                    rows.Add(useCase.Name, role);
                }
            }

            return rows;
        }
    }

    [Theory]
    [MemberData(nameof(Matrix))]
    public async Task HandleAsync_Role_IsAllowedOrNot(string useCase, Role role)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var (allowed, call) = UseCases.Single(row => row.Key.Name == useCase).Value;
        var before = await nursery.LedgerCountAsync();

        var failure = await Record.ExceptionAsync(() => call(nursery, nursery.As(role)));

        if (allowed.Contains(role))
        {
            // Past the door it may still miss what it was asked about, but nothing else.
            Assert.True(failure is null or NotFound or InvalidFields, failure?.ToString());
        }
        else
        {
            Assert.IsType<NotAllowed>(failure);
            Assert.Equal(before, await nursery.LedgerCountAsync());
        }
    }

    /// <summary>Every role may read, so only somebody without any right shows that reading is asked for.</summary>
    [Theory]
    [MemberData(nameof(Names))]
    public async Task HandleAsync_NoRightAtAll_IsNotAllowed(string useCase)
    {
        await using var nursery = await TestNursery.OpenAsync(database);
        var nobody = nursery.Administrator with { Rights = new HashSet<Right>() };

        await Assert.ThrowsAsync<NotAllowed>(() => UseCases.Single(row => row.Key.Name == useCase).Value.Call(nursery, nobody));
    }

    [Fact]
    public void Matrix_EveryUseCaseWithAnActor_StandsInIt()
    {
        var withActor = typeof(PlanBatch).Assembly.GetExportedTypes()
            .Where(type => type.GetMethods().Any(method => method.Name == "HandleAsync"
                && method.GetParameters().Any(parameter => parameter.ParameterType == typeof(Actor))))
            .Select(type => type.Name);

        Assert.Equal(withActor.Order(StringComparer.Ordinal), UseCases.Keys.Select(type => type.Name).Order(StringComparer.Ordinal));
    }
}
