/** Shells, walls and drops: `import { enclosure } from "workings/physics"`. */
export {
  clipForce,
  clipStrain,
  conditionedModulus,
  creepModulus,
  creepModulusBetween,
  creptDeflection,
  moistureContent,
  relaxedForce,
} from "./enclosure-creep-laws";
export {
  allowedStiffness,
  bossBendingStress,
  bossForce,
  bossStress,
  contactTime,
  dropEnergy,
  impactSpeed,
  measuredStiffness,
  padStiffness,
  peakDeceleration,
  peakForce,
  peakForceByEnergy,
  seriesStiffness,
  stiffnessAtTemperature,
  stoppingDistance,
  yieldAtTemperature,
  yieldShare,
} from "./enclosure-drop-laws";
export { equalRigidityWall, equalStiffnessMass, equalStiffnessWall, stiffnessPerMass } from "./enclosure-material-laws";
export { clampedPatchDeflection, shell, supportedPatchDeflection } from "./enclosure-models";
export {
  centreStiffness,
  clampedPlateFrequency,
  flexuralRigidity,
  pointClampedCoefficient,
  pointDeflection,
  pointSupportedCoefficient,
  roundPatchSide,
  sideRatio,
  supportedPlateFrequency,
  uniformClampedCoefficient,
  uniformDeflection,
  uniformSupportedCoefficient,
} from "./enclosure-plate-laws";
export { ribbedCentroid, ribbedMassThickness, ribbedSecondMoment, ribbedThickness, ribStress } from "./enclosure-rib-laws";
export {
  areaTimesWall,
  bossVolume,
  clearance,
  clipVolume,
  innerHeight,
  innerRadius,
  mass,
  roundedBoxVolume,
  sharpShellVolume,
  stackHeight,
  swollenThickness,
} from "./enclosure-shell-laws";
